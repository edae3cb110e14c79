import type { VerdictFact } from "../../validation/verdict-facts.ts";
import { sayOne, type Messages } from "../messages.ts";
import { en } from "./index.ts";
import { verdictOf } from "./verdict.ts";

/** Every result was called y. */
const verdict = verdictOf(() => "y");

const inWidth = (width: VerdictFact & { readonly kind: "tooWide" | "tooNarrow" }): string =>
  `${sayOne(verdict, width)} ${verdict.factorNeeded({ kind: "factorNeeded", factor: width.factor })}`;

/**
 * The sentences as versions up to 0.5.0 worded them, so that a record of theirs is known to say what its figures say: of
 * the same facts, in other words. Nothing is written with them.
 */
export const former: Messages = {
  ...en,
  verdict: {
    ...verdict,
    displaced: ({ direction, width }) =>
      width === null
        ? `The two intervals are equally wide, but the Monte Carlo interval lies ${direction} at both endpoints.`
        : inWidth(width),
    unplaced: ({ width }) => inWidth(width),
  },
  remarks: {
    ...en.remarks,
    noFourthMoment: ({ symbols }) => en.remarks.noFourthMoment({ kind: "noFourthMoment", symbols, results: ["y"] }),
    heavyTail: (fact) => en.remarks.heavyTail(fact).replace(`u(${fact.symbol})`, () => "u(y)"),
  },
};
