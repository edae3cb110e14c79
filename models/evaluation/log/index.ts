// A laboratory's log: rows of a table as time series of thermometers, in °C.
export { MOST_READINGS, readSeries } from "./series.ts";
export { samplingOf, thermometerLog } from "./thermometer-log.ts";

export type { Series, SeriesRequest } from "./series.ts";
export type { Gap, Sampling, ThermometerLog } from "./thermometer-log.ts";
