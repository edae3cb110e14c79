import type { ConformityFact } from "../conformity/conformity-facts.ts";
import type { ExplanationFact } from "../explanation/explanation-facts.ts";
import type { LinearisedFact } from "../convolution/linearised-facts.ts";
import type { RecommendationFact } from "../explanation/recommendation-facts.ts";
import type { PairedFact } from "../paired/paired-facts.ts";
import type { RemarkFact } from "../remarks/remark-facts.ts";
import type { SensitivityFact } from "../sensitivity/sensitivity-facts.ts";
import type { VerdictFact } from "../validation/verdict-facts.ts";

interface Fact {
  readonly kind: string;
}

/** A message for each kind of a fact, with the fact's figures and symbols as its arguments. */
export type MessageTable<F extends Fact> = {
  readonly [K in F["kind"]]: (fact: F & { readonly kind: K }) => string;
};

/** The facts of every topic. */
export interface Facts {
  readonly verdict: VerdictFact;
  readonly paired: PairedFact;
  readonly explanation: ExplanationFact;
  readonly recommendation: RecommendationFact;
  readonly linearised: LinearisedFact;
  readonly conformity: ConformityFact;
  readonly sensitivity: SensitivityFact;
  readonly remarks: RemarkFact;
}

/** All sentences of one language. A missing message does not compile. */
export type Messages = { readonly [T in keyof Facts]: MessageTable<Facts[T]> };

/** Facts in words: a sentence or two per fact. */
export const say = <F extends Fact>(table: MessageTable<F>, facts: readonly F[]): string =>
  facts.map((fact) => sayOne(table, fact)).join(" ");

export const sayOne = <F extends Fact>(table: MessageTable<F>, fact: F): string =>
  (table[fact.kind as F["kind"]] as (fact: F) => string)(fact);
