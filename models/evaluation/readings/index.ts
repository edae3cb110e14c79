// Calibration readings: from a log of indications to differences with their type A uncertainty.
export { readBySchema as readDocument } from "../../../engine/internal.ts";
export { autocorrelation, effectiveSampleSize, sampleStatistics } from "../../../engine/internal.ts";
export { comparisonSequence } from "./comparison-sequence.ts";
export { decimalsWritten, parseDecimal } from "../text/decimal.ts";
export { readingsSchema } from "./description.ts";
export { comparisonStatements, differenceStatement, evaluateReadings } from "./evaluate.ts";
export { duration, millikelvin } from "../check.ts";
export { formatInstant, INSTANT_ACCEPTED, parseInstant, showInstant } from "../text/instant.ts";
export { criticalDeviate, screenOutliers } from "./outliers.ts";
export { pairedReadings } from "./paired-readings.ts";
export { pool, widerByChance } from "./pooled.ts";
export { statedReadings } from "./stated.ts";
export { evaluateTypeA } from "./type-a.ts";
export { celsius, readUnit, splitHeading, UNITS_ACCEPTED } from "../text/units.ts";

export type { EffectiveSampleSize, SampleStatistics } from "../../../engine/internal.ts";
export type { ComparisonCycle, ComparisonSequence, Indication } from "./comparison-sequence.ts";
export type { DecimalMark } from "../text/decimal.ts";
export type { ReadingsDescription } from "./description.ts";
export type { ProbeEvaluation } from "./evaluate.ts";
export type { Check } from "../check.ts";
export type { Instant } from "../text/instant.ts";
export type { OutlierScreening, OutlierStep } from "./outliers.ts";
export type { StatedReadings } from "./stated.ts";
export type { EarlierSeries } from "./pooled.ts";
export type { TypeAEvaluation, TypeAOptions } from "./type-a.ts";
export type { ThermometerUnit } from "../text/units.ts";
