// A laboratory's log: rows of a table as time series of thermometers, in °C.
export { describeStep, spread, straighten } from "./clock.ts";
export { letterOf } from "./columns.ts";
export { fileRequests, logFileSchema, logSchema, loggedThermometerSchema } from "./description.ts";
export { GrowingLog } from "./growing-log.ts";
export { isNoReading } from "./no-reading.ts";
export { proposeLog } from "./proposal.ts";
export { plateaus } from "./plateaus.ts";
export { MOST_READINGS } from "./request.ts";
export { logRows, separatorOf } from "./rows.ts";
export { readSeries } from "./series.ts";
export { samplingOf, thermometerLog } from "./thermometer-log.ts";

export type { ClockRule, ClockStep } from "./clock.ts";
export type { GrowingLogOptions, Reading } from "./growing-log.ts";
export type { FileRequest } from "./description.ts";
export type { Plateau } from "./plateaus.ts";
export type { LogProposal, ProposedColumn, ProposedThermometer } from "./proposal.ts";
export type { LogSettings, Series, SeriesRequest } from "./request.ts";
export type { Gap, Sampling, ThermometerLog } from "./thermometer-log.ts";
