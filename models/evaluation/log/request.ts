import type { DateOrder } from "../text/stamp.ts";
import type { ThermometerUnit } from "../text/units.ts";
import type { ClockRule } from "./clock.ts";
import type { ColumnRequest } from "./columns.ts";
import type { ThermometerLog } from "./thermometer-log.ts";

/** Most readings kept of one log: 16 bytes each. */
export const MOST_READINGS = 10_000_000;

/** How a log was written, as far as the log itself does not show it. */
export interface LogSettings {
  /** Row of the headings in the file, from 1; 0 if there is none. Without it, the row is found. */
  readonly headingRow?: number | undefined;
  /** Which number of a date such as 03/04/2026 is the day. */
  readonly dates?: DateOrder | undefined;
  /** Seconds of the midnight that times without a date are counted from. */
  readonly day?: number | undefined;
  /** Which times are right if the clock was set back: those before, or those after. */
  readonly clock?: ClockRule | undefined;
  /** `spread`: rows under one time stamp are spread up to the next. */
  readonly sameTime?: "spread" | undefined;
  /** Further words that stand for no reading. */
  readonly noReading?: readonly string[] | undefined;
}

export interface SeriesRequest extends ColumnRequest, LogSettings {
  /** Times to keep, s; readings outside are checked and dropped. Default: all. */
  readonly keep?: readonly { readonly from: number; readonly to: number }[] | undefined;
  /** True where no two readings may share a time, even of different thermometers. */
  readonly oneAtATime?: boolean | undefined;
  readonly mostReadings?: number | undefined;
}

/** Time series of a log, in °C. */
export interface Series {
  readonly logs: readonly ThermometerLog[];
  /** Rows below the headings. */
  readonly rows: number;
  /** Readings kept. */
  readonly readings: number;
  readonly units: Readonly<Record<string, ThermometerUnit>>;
  readonly notes: readonly string[];
}
