import type { ConformityFigures, Rounded } from "../record/figures.ts";
import { decimalsFor, toDecimals } from "../record/rounding.ts";
import type { Quantity } from "../model.ts";
import type { RuleName } from "./acceptance.ts";
import type { AssessmentRecord } from "../record/conformity.ts";
import type { Tolerance } from "../tolerance.ts";
import { leastOfTrials, type Chance } from "../record/chance.ts";

/** Whether one measurand conforms (JCGM 106:2012), and at what risk. */
export type ConformityFact =
  | {
      readonly kind: "decision";
      readonly rule: RuleName;
      /** `null` without a guard band. */
      readonly guardBand: {
        readonly lower: Rounded;
        readonly upper: Rounded;
        /** Which of them the requirement has; both where they are alike to the digits shown. */
        readonly at: "each" | "apart" | "lower" | "upper";
        readonly side: "inside" | "outside";
      } | null;
      readonly symbol: string;
      readonly estimate: Rounded;
      readonly decision: AssessmentRecord["decision"];
      readonly tolerance: Tolerance;
      readonly unit: string;
    }
  | { readonly kind: "nothingAcceptable" }
  /** Another draw of the trials may decide otherwise. */
  | { readonly kind: "withinScatter"; readonly linear: AssessmentRecord["decision"] }
  /** The item with its prior taken into account. */
  | {
      readonly kind: "posterior";
      readonly conforming: Chance;
      readonly bearer: AssessmentRecord["specificRisk"]["bearer"];
      readonly risk: Chance;
    }
  | {
      /** From the measurement, and nothing that was known before. */
      readonly kind: "risk";
      readonly alone: boolean;
      readonly monteCarlo: Chance;
      readonly linear: Chance;
      readonly bearer: AssessmentRecord["specificRisk"]["bearer"];
      readonly risk: Chance;
    }
  | { readonly kind: "methodsDisagree"; readonly linear: AssessmentRecord["decision"] }
  | {
      readonly kind: "beforeMeasurement";
      readonly conforming: Chance;
      readonly consumer: Chance;
      readonly producer: Chance;
    };

/** How many trials the figures rest on. */
interface Drawn {
  readonly monteCarlo: { readonly trials: number };
}

/** Decision and risks for one measurand, in the order of the sentences. */
export function conformityFacts(
  { tolerance, rule, prior, linear, monteCarlo, agree }: ConformityFigures,
  { symbol, unit, monteCarlo: { trials } }: Pick<Quantity, "symbol" | "unit"> & Drawn,
): ConformityFact[] {
  const decimals = decimalsFor(monteCarlo.expandedUncertainty, 2);
  const rounded = (value: number): Rounded => ({ value, decimals, unit });
  const posterior = monteCarlo.posterior ?? linear.posterior;
  const global = monteCarlo.globalRisk ?? linear.globalRisk;
  const byTrials: Chance = { ...chanceOf(monteCarlo), least: leastOfTrials(trials) };
  return [
    {
      kind: "decision",
      rule: rule.name,
      guardBand: guardBandOf(tolerance, monteCarlo, rounded),
      symbol,
      estimate: rounded(monteCarlo.estimate),
      decision: monteCarlo.decision,
      tolerance,
      unit,
    },
    ...(monteCarlo.acceptance === null ? [{ kind: "nothingAcceptable" as const }] : []),
    ...(monteCarlo.firm === false ? [{ kind: "withinScatter" as const, linear: linear.decision }] : []),
    ...(posterior === null
      ? []
      : [
          {
            kind: "posterior" as const,
            conforming: alone(posterior.probabilityOfConformity),
            bearer: monteCarlo.specificRisk.bearer,
            risk: alone(posterior.specificRisk),
          },
        ]),
    {
      kind: "risk",
      alone: posterior !== null,
      monteCarlo: byTrials,
      linear: chanceOf(linear),
      bearer: monteCarlo.specificRisk.bearer,
      risk: monteCarlo.decision === "accepted" ? complement(byTrials) : byTrials,
    },
    ...(agree ? [] : [{ kind: "methodsDisagree" as const, linear: linear.decision }]),
    ...(prior === null || global === null
      ? []
      : [
          {
            kind: "beforeMeasurement" as const,
            conforming: alone(prior.probabilityOfConformity),
            consumer: alone(global.consumer),
            producer: alone(global.producer),
          },
        ]),
  ];
}

function guardBandOf(
  { lower, upper }: Tolerance,
  { guardBand, guardBands }: AssessmentRecord,
  rounded: (value: number) => Rounded,
): (ConformityFact & { kind: "decision" })["guardBand"] {
  if (guardBand === 0) return null;
  const bands = guardBands ?? { lower: guardBand, upper: guardBand };
  const [low, high] = [rounded(Math.abs(bands.lower)), rounded(Math.abs(bands.upper))];
  const alike = toDecimals(low.value, low.decimals) === toDecimals(high.value, high.decimals);
  return {
    lower: low,
    upper: high,
    at: lower === null ? "upper" : upper === null ? "lower" : alike ? "each" : "apart",
    side: guardBand > 0 ? "inside" : "outside",
  };
}

/** A probability of a normal distribution, whose complement is one minus it. */
const alone = (value: number): Chance => ({ value, rest: 1 - value });

const complement = ({ value, rest, ...least }: Chance): Chance => ({ value: rest, rest: value, ...least });

const chanceOf = ({ probabilityOfConformity, below, above }: AssessmentRecord): Chance => ({
  value: probabilityOfConformity,
  rest: below + above,
});
