// Records as files: what a laboratory has on disk becomes what models/bath evaluates.
export { CsvParser, csvRows } from "../../models/evaluation/table/csv.ts";
export { readDsi } from "../../models/evaluation/d-si/read.ts";
export { readJson } from "./document.ts";
export {
  loadBudgetTable,
  loadCertificate,
  loadImmersion,
  loadReadings,
  loadSurvey,
  readIndications,
  readSurveyLog,
} from "./load.ts";
export { MOST_READINGS, readSeries } from "../../models/evaluation/log/series.ts";
export { openTable } from "./table.ts";

export type { LoadedReadings, LoadedSurvey } from "./load.ts";
export type { Series, SeriesRequest } from "../../models/evaluation/log/series.ts";
export type { RecordSource } from "./source.ts";
export type { Table } from "./table.ts";
