// Files: what a laboratory has on disk becomes what models/evaluation evaluates.
export { readDsi } from "./d-si.ts";
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
export { openTable } from "./table.ts";

export type { LoadedReadings, LoadedSurvey } from "./load.ts";
export type { FileSource } from "./source.ts";
