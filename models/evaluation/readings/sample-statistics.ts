export { compensatedSum, sampleStatistics, type SampleStatistics } from "../../../engine/index.ts";
