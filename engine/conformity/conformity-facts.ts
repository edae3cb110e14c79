import type { ConformityFigures, Rounded } from "../record/figures.ts";
import { decimalsFor } from "../record/rounding.ts";
import type { Quantity } from "../model.ts";
import type { RuleName } from "./acceptance.ts";
import type { AssessmentRecord } from "./conformity-record.ts";
import type { Tolerance } from "./tolerance.ts";

/** A probability with its complement, which may be too small to be one minus it. */
export interface Chance {
  readonly value: number;
  readonly rest: number;
}

/** Whether one measurand conforms (JCGM 106:2012), and at what risk. */
export type ConformityFact =
  | {
      readonly kind: "decision";
      readonly rule: RuleName;
      /** `null` without a guard band. */
      readonly guardBand: (Rounded & { readonly side: "inside" | "outside" }) | null;
      readonly symbol: string;
      readonly estimate: Rounded;
      readonly decision: AssessmentRecord["decision"];
      readonly tolerance: Tolerance;
      readonly unit: string;
    }
  | { readonly kind: "nothingAcceptable" }
  | {
      readonly kind: "risk";
      readonly monteCarlo: Chance;
      readonly linear: Chance;
      readonly bearer: AssessmentRecord["specificRisk"]["bearer"];
      readonly risk: number;
    }
  | { readonly kind: "methodsDisagree"; readonly linear: AssessmentRecord["decision"] }
  | {
      readonly kind: "beforeMeasurement";
      readonly conforming: number;
      readonly consumer: number;
      readonly producer: number;
    };

/** Decision and risks for one measurand, in the order in which they are spoken. */
export function conformityFacts(
  { tolerance, rule, prior, linear, monteCarlo, agree }: ConformityFigures,
  { symbol, unit }: Pick<Quantity, "symbol" | "unit">,
): ConformityFact[] {
  const decimals = decimalsFor(monteCarlo.expandedUncertainty, 2);
  const rounded = (value: number): Rounded => ({ value, decimals, unit });
  const w = monteCarlo.guardBand;
  const global = monteCarlo.globalRisk ?? linear.globalRisk;
  return [
    {
      kind: "decision",
      rule: rule.name,
      guardBand:
        rule.guardBandMultiplier === 0 ? null : { ...rounded(Math.abs(w)), side: w > 0 ? "inside" : "outside" },
      symbol,
      estimate: rounded(monteCarlo.estimate),
      decision: monteCarlo.decision,
      tolerance,
      unit,
    },
    ...(monteCarlo.acceptance === null ? [{ kind: "nothingAcceptable" as const }] : []),
    {
      kind: "risk",
      monteCarlo: chanceOf(monteCarlo),
      linear: chanceOf(linear),
      bearer: monteCarlo.specificRisk.bearer,
      risk: monteCarlo.specificRisk.value,
    },
    ...(agree ? [] : [{ kind: "methodsDisagree" as const, linear: linear.decision }]),
    ...(prior === null || global === null
      ? []
      : [
          {
            kind: "beforeMeasurement" as const,
            conforming: prior.probabilityOfConformity,
            consumer: global.consumer,
            producer: global.producer,
          },
        ]),
  ];
}

const chanceOf = ({ probabilityOfConformity, below, above }: AssessmentRecord): Chance => ({
  value: probabilityOfConformity,
  rest: below + above,
});
