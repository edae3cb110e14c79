import { elementary, refuse } from "../../../engine/index.ts";
import { normalProbability } from "./quantiles.ts";

/** The standard deviation of an earlier series. */
export interface EarlierSeries {
  readonly standardDeviation: number;
  readonly degreesOfFreedom: number;
}

/** Pooled standard deviation s_p = √(Σν_i·s_i²/Σν_i) with Σν_i degrees of freedom (JCGM 100, 4.2.4; formula in the note of H.3.6). */
export function pool(series: readonly EarlierSeries[], place = "history"): EarlierSeries {
  if (series.length === 0) refuse(place, "none", "at least one earlier series");
  let squares = 0;
  let degreesOfFreedom = 0;
  series.forEach(({ standardDeviation: s, degreesOfFreedom: ν }, i) => {
    if (!(s >= 0 && Number.isFinite(s))) refuse(`${place}.${i}.standardDeviation`, s, "a number of at least 0");
    if (!(ν > 0 && Number.isFinite(ν))) refuse(`${place}.${i}.degreesOfFreedom`, ν, "a number greater than 0");
    squares += ν * s * s;
    degreesOfFreedom += ν;
  });
  return { standardDeviation: Math.sqrt(squares / degreesOfFreedom), degreesOfFreedom };
}

/**
 * Probability that a series as wide as today's, or wider, comes from the process the history describes: upper tail of
 * the variance ratio F = s²/s_p², by E. Paulson's normal approximation (Ann. Math. Stat. 13 (1942) 233), good to about
 * 0.01 from three degrees of freedom of the history up.
 */
export function widerByChance(today: EarlierSeries, history: EarlierSeries): number {
  if (history.standardDeviation === 0) return today.standardDeviation === 0 ? 1 : 0;
  const ratio = today.standardDeviation / history.standardDeviation;
  const root = elementary.cbrt(ratio * ratio);
  const a = 2 / (9 * today.degreesOfFreedom);
  const b = 2 / (9 * history.degreesOfFreedom);
  return 1 - normalProbability(((1 - b) * root - (1 - a)) / Math.sqrt(b * root * root + a));
}
