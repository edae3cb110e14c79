import type { InputRecord } from "./input.ts";
import type { MeasurandRecord } from "./measurand.ts";
import type { RunRecord } from "./record.ts";

/**
 * The record of one model's study, with the names that the model declares: `record.measurands.density` is there, and
 * `record.measurands.mass` does not compile. Inputs that a study may leave out (`P`) may be missing.
 */
export type RecordOf<I extends string = string, O extends string = string, P extends string = never> = Omit<
  RunRecord,
  "inputs" | "measurands"
> & {
  readonly inputs: Readonly<Record<I, InputRecord>> & Readonly<Partial<Record<P, InputRecord>>>;
  readonly measurands: Readonly<Record<O, MeasurandRecord>>;
};
