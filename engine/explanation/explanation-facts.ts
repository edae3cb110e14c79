import type { ExplanationFigures, MeasurandFigures, Rounded, RunFigures } from "../record/figures.ts";
import { degreesOfFreedomOf, symbolOf } from "../record/figures.ts";
import { decimalsFor } from "../record/rounding.ts";
import type { Statement } from "../distributions/index.ts";
import { CAUSES } from "./causes.ts";
import { leftOver } from "./left-over.ts";
import type { Cause, EndMoves } from "../record/explanation.ts";

/** An input that makes a cause, with what makes it do so: its degrees of freedom, or its distribution and its share of u². */
export interface ResponsibleInput {
  readonly symbol: string;
  readonly degreesOfFreedom?: number;
  readonly distribution?: Statement["distribution"];
  readonly share?: number;
}

/** One cause and its greatest move of an endpoint. */
export interface CauseFact {
  readonly cause: Cause;
  /** Its part of what pushes the endpoints apart, or, with a minus, the part of the push that it takes back. */
  readonly share: number;
  readonly inputs: readonly ResponsibleInput[];
  readonly move: Rounded;
  readonly effect: "widens" | "narrows" | "shifts";
}

/** Why the two intervals differ. */
export type ExplanationFact =
  | { readonly kind: "noCause" }
  | { readonly kind: "causes" | "cancelling"; readonly difference: Rounded; readonly causes: readonly CauseFact[] }
  /** Some causes push, others take back. */
  | {
      readonly kind: "opposed";
      readonly difference: Rounded;
      readonly pushing: readonly CauseFact[];
      readonly takingBack: readonly CauseFact[];
    }
  /** What is left over is too much for the shares to say anything. */
  | { readonly kind: "unresolved"; readonly remainder: Rounded }
  /** The budget's k allows for degrees of freedom that the trials leave out. */
  | { readonly kind: "allowanceUnused"; readonly linearFactor: number }
  | {
      readonly kind: "boundedShape" | "uncertainSpread";
      readonly linearFactor: number;
      readonly factorNeeded: number;
    }
  | { readonly kind: "coefficientsVanish" | "curveShifts" | "productsWiden" };

/** A cause below this part of the difference is not named. */
const WORTH_NAMING = 0.1;
const MOST_INPUTS = 4;
/** A cause that moves the endpoints by less than this part of δ is none. */
const NO_CAUSE = 0.05;

/** Why the intervals of one measurand differ, in the order of the sentences. */
export function explanationFacts(
  run: Pick<RunFigures, "inputs" | "study">,
  measurand: MeasurandFigures,
  { parts, difference: moved, remainder, resolved }: ExplanationFigures,
): ExplanationFact[] {
  const { validation, unit } = measurand;
  const δ = validation.numericalTolerance;
  const named = CAUSES.filter(
    (cause) => Math.abs(parts[cause].share) >= WORTH_NAMING && greatest(parts[cause].shapley) > NO_CAUSE * δ,
  ).toSorted((a, b) => parts[b].share - parts[a].share);
  const end = Math.abs(moved[1]) > Math.abs(moved[0]) ? 1 : 0;
  const left = leftOver(measurand, remainder);
  const unresolved: ExplanationFact[] =
    resolved === false
      ? [{ kind: "unresolved", remainder: { value: left, decimals: decimalsFor(left, 1), unit } }]
      : [];
  if (named.length === 0) return [{ kind: "noCause" }];
  const size = greatest(moved);
  const difference: Rounded = { value: size, decimals: decimalsFor(δ || validation.dHigh, 1) + 1, unit };
  const causes = named.map((cause): CauseFact => {
    const { share, inputs, shapley } = parts[cause];
    return {
      cause,
      share,
      inputs: inputs.slice(0, MOST_INPUTS).map((input) => responsible(run, measurand, cause, input)),
      move: { value: Math.abs(shapley[end]), decimals: decimalsFor(size, 1) + 1, unit },
      effect: effectOf(shapley),
    };
  });
  // Causes that pull against one another can leave a small difference by luck; a reader must know.
  const pulls = named.map((cause) => greatest(parts[cause].shapley));
  const pulled = pulls.reduce((sum, pull) => sum + pull, 0);
  if (named.length > 1 && Math.max(...pulls) > 2 * size && pulled > 4 * size)
    return [{ kind: "cancelling", difference, causes }, ...unresolved];
  const takingBack = causes.filter(({ share }) => share < 0);
  const main: ExplanationFact =
    takingBack.length === 0
      ? { kind: "causes", difference, causes }
      : { kind: "opposed", difference, pushing: causes.filter(({ share }) => share > 0), takingBack };
  return [main, ...mechanism(measurand, named[0]!, parts[named[0]!].shapley), ...unresolved];
}

const greatest = ([low, high]: EndMoves): number => Math.max(Math.abs(low), Math.abs(high));

const effectOf = ([low, high]: EndMoves): CauseFact["effect"] =>
  high - low > Math.abs(high + low) / 2 ? "widens" : low - high > Math.abs(high + low) / 2 ? "narrows" : "shifts";

function responsible(
  run: Pick<RunFigures, "inputs" | "study">,
  { linear }: MeasurandFigures,
  cause: Cause,
  input: string,
): ResponsibleInput {
  const row = linear.contributions.find((contribution) => contribution.input === input)!;
  const symbol = symbolOf(run, input);
  if (cause === "degreesOfFreedom") return { symbol, degreesOfFreedom: degreesOfFreedomOf(run, linear, input)! };
  if (cause === "shape") return { symbol, distribution: run.study.inputs[input]!.distribution, share: row.share };
  return { symbol };
}

/** The effect of the leading cause. */
function mechanism(
  { linear, validation }: MeasurandFigures,
  cause: Cause,
  [low, high]: EndMoves,
): readonly ExplanationFact[] {
  const k = validation.coverageFactorNeeded;
  const narrows = high - low < 0;
  if (cause === "curvature") {
    if (linear.standardUncertainty === 0 || linear.contributions.every(({ contribution }) => contribution === 0))
      return [{ kind: "coefficientsVanish" }];
    return [{ kind: Math.abs(high + low) > Math.abs(high - low) ? "curveShifts" : "productsWiden" }];
  }
  // Of a budget that is kept no other factor is necessary.
  if (k === null || (validation.validated && validation.firm)) return [];
  const factors = { linearFactor: linear.coverageFactor, factorNeeded: k };
  if (cause === "shape" && narrows && k < linear.coverageFactor) return [{ kind: "boundedShape", ...factors }];
  if (cause === "degreesOfFreedom" && !narrows && k > linear.coverageFactor)
    return [{ kind: "uncertainSpread", ...factors }];
  if (cause === "degreesOfFreedom" && narrows)
    return [{ kind: "allowanceUnused", linearFactor: linear.coverageFactor }];
  return [];
}
