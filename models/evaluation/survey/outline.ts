import type { ThermometerLog } from "../log/thermometer-log.ts";

/** A log drawn small: lowest and highest reading in each of a number of equal times. */
export interface Outline {
  readonly thermometer: string;
  /** Middle of each time, s. */
  readonly times: readonly number[];
  readonly lowest: readonly number[];
  readonly highest: readonly number[];
}

/** At most `columns` points for a plot; times without a reading are left out, so that gaps show. */
export function outlineOf({ thermometer, times, values }: ThermometerLog, columns = 600): Outline {
  const moments: number[] = [];
  const lowest: number[] = [];
  const highest: number[] = [];
  const start = times[0] ?? 0;
  const width = ((times.at(-1) ?? 0) - start) / columns || 1;
  let column = -1;
  for (let i = 0; i < times.length; i++) {
    const at = Math.min(columns - 1, Math.floor((times[i]! - start) / width));
    const value = values[i]!;
    if (at !== column) {
      column = at;
      moments.push(start + (at + 0.5) * width);
      lowest.push(value);
      highest.push(value);
    } else {
      const last = lowest.length - 1;
      if (value < lowest[last]!) lowest[last] = value;
      if (value > highest[last]!) highest[last] = value;
    }
  }
  return { thermometer, times: moments, lowest, highest };
}
