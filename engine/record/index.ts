// What reads a filed record: its schemas take some milliseconds to build, so that the engine's own index, which every run
// loads, has their types alone.
export { migrate } from "./migrate.ts";
export { recordSchema, shownRecordSchema } from "./record.ts";
export { histogramSchema } from "./monte-carlo.ts";
