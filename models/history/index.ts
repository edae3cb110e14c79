// The same instrument, reference or bath over years: drift at the next use, control of each calibration, due days.
export { historySchema, readHistory, type HistoryDocument } from "./document.ts";
export { calibrationsOfTable } from "./from-table.ts";
export { driftLine, onLine, type DriftLine, type CalibratedValue } from "./line.ts";
export { evaluateHistory, YEAR, type HistoryEntry, type HistoryEvaluation, type QuantityHistory } from "./evaluate.ts";
export { dueDates, type Due } from "./due.ts";
