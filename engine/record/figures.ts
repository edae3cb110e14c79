import type { ConformityRecord } from "./conformity.ts";
import type { ExplanationRecord, Recommendation } from "./explanation.ts";
import type { LinearisedFigures } from "./linearised.ts";
import type { Quantity } from "../model.ts";
import type { PairedFigures } from "./paired.ts";
import type { SensitivityRecord } from "./sensitivity.ts";
import type { MeasurandRecord, RunRecord, ValidationRecord } from "./record.ts";

/*
 * A record without its sentences. Facts are made only from these figures, so that a filed record, which has the same
 * figures, gives the same facts.
 */

export type ValidationFigures = Omit<ValidationRecord, "sentence">;
export type RecommendationFigures = Omit<Recommendation, "sentence">;
export type ConformityFigures = Omit<ConformityRecord, "sentence">;
export type SensitivityFigures = Omit<SensitivityRecord, "sentence" | "reason">;

export type { PairedFigures } from "./paired.ts";
export type { LinearisedFigures } from "./linearised.ts";

export interface ExplanationFigures extends Omit<ExplanationRecord, "sentence" | "recommendation"> {
  readonly recommendation: RecommendationFigures;
}

export interface MeasurandFigures extends Omit<
  MeasurandRecord,
  "validation" | "paired" | "explanation" | "linearised" | "conformity" | "sensitivity"
> {
  readonly validation: ValidationFigures;
  readonly paired?: PairedFigures;
  readonly explanation: ExplanationFigures | null;
  readonly linearised?: LinearisedFigures;
  readonly conformity: ConformityFigures | null;
  readonly sensitivity: SensitivityFigures | null;
}

export interface RunFigures extends Omit<RunRecord, "measurands" | "remarks"> {
  readonly measurands: Readonly<Record<string, MeasurandFigures>>;
}

/** A figure as a sentence prints it: the decimals and the unit are the same in every language. */
export interface Rounded {
  readonly value: number;
  /** Decimal places; negative for places before the decimal marker. */
  readonly decimals: number;
  /** "1" for dimension one. */
  readonly unit: string;
}

/** A source of inputs' symbols: a record or a model. */
export interface Symbols {
  readonly inputs: Readonly<Record<string, Pick<Quantity, "symbol">>>;
}

/** The degrees of freedom an input is drawn with, or those that the budget takes; `null` if they are infinite. */
export const degreesOfFreedomOf = (
  { inputs }: Pick<RunFigures, "inputs">,
  { contributions }: Pick<MeasurandFigures["linear"], "contributions">,
  name: string,
): number | null =>
  inputs[name]?.drawnDegreesOfFreedom ?? contributions.find(({ input }) => input === name)?.degreesOfFreedom ?? null;

/** The symbol of an input, or its name if there is no such input. */
export const symbolOf = ({ inputs }: Symbols, name: string): string =>
  Object.hasOwn(inputs, name) ? inputs[name]!.symbol : name;
