import { elementary, refuse } from "../../../engine/index.ts";
import { sampleStatistics } from "../../../engine/internal.ts";
import { duration, figure, millikelvin, type Check } from "../check.ts";
import { showInstant } from "../text/instant.ts";
import { allanDeviations, type AllanPoint } from "./allan-deviation.ts";
import {
  between,
  describeGap,
  samplingOf,
  stretches,
  type Sampling,
  type ThermometerLog,
} from "../log/thermometer-log.ts";
import { straightLine } from "./straight-line.ts";

/** Shortest window stability is judged over, s (common practice). */
export const SHORTEST_WINDOW = 1800;

/** Over which times the stability of a bath is judged. All are in s. */
export interface StabilityOptions {
  /** How long one calibration takes, s. */
  readonly calibration: number;
  /** Length of the window, s. Default: 30 min, or the calibration if that is longer. */
  readonly window?: number | undefined;
  /** A silence longer than this, s, cuts the log. */
  readonly maximumGap?: number | undefined;
  /** Duration of one drift-corrected cycle of the comparison, s, if it is read in cycles. */
  readonly cycle?: number | undefined;
}

/** What the bath does over the time of one cycle. */
export interface CycleStability {
  /** s */
  readonly length: number;
  readonly worst: StabilityWindow;
}

/** One window of a log, K and s. */
export interface StabilityWindow {
  readonly from: number;
  readonly to: number;
  readonly samples: number;
  /** Half the span from the lowest reading to the highest. */
  readonly halfRange: number;
  readonly standardDeviation: number;
  /** Drift, K/s, and what fluctuates about it. */
  readonly slope: number;
  readonly fluctuation: number;
}

/**
 * How stable a bath was by one thermometer: the worst and the best window of its log, the noise of a reading, and the
 * half-width, K, that a budget states. Temperatures and deviations are in K, times in s.
 */
export interface StabilityEvaluation {
  readonly thermometer: string;
  readonly sampling: Sampling;
  /** Length of the windows, s. */
  readonly window: number;
  readonly windows: number;
  /** The window with the largest half-range: the figure to use. */
  readonly worst: StabilityWindow;
  /** The window with the smallest, to show what the bath can do. */
  readonly best: StabilityWindow;
  /** Over the whole log. */
  readonly whole: StabilityWindow;
  readonly allan: readonly AllanPoint[];
  /** Noise of a single reading: the Allan deviation at one sampling interval. `null` for an uneven log. */
  readonly readingNoise: number | null;
  /** What that noise adds to the half-span of a window at most, on average, K; `null` for an uneven log. */
  readonly noiseAdded: number | null;
  /** Over one cycle of the comparison; `null` if it is not stated. */
  readonly cycle: CycleStability | null;
  /** Half the span of the worst window, or of the worst cycle if one is stated. */
  readonly halfWidth: number;
  readonly checks: readonly Check[];
  readonly reasoning: readonly string[];
}

/**
 * Stability of a bath from one thermometer that stays where it is.
 *
 * @throws {InputError} a window longer than any uninterrupted part of the log
 */
export function evaluateStability(log: ThermometerLog, options: StabilityOptions): StabilityEvaluation {
  const window = options.window ?? Math.max(SHORTEST_WINDOW, options.calibration);
  const sampling = samplingOf(log, options.maximumGap);
  const parts = stretches(log, sampling).filter((part) => part.times.length > 2);
  const found = parts.map((part) => scan(part, window, sampling.interval)).filter((scanned) => scanned.windows > 0);
  if (found.length === 0) {
    const longest = Math.max(0, ...parts.map(({ times }) => times.at(-1)! - times[0]!));
    refuse(
      `stability.${log.thermometer}.window`,
      duration(window),
      `a window no longer than the log without a gap, ${duration(longest)}` +
        (sampling.gaps.length > 0 ? ` (${describeGap(sampling.gaps[0]!)})` : ""),
    );
  }
  const widest = found.reduce((a, b) => (b.high.range > a.high.range ? b : a)).high;
  const narrowest = found.reduce((a, b) => (b.low.range < a.low.range ? b : a)).low;
  const worst = windowOf(between(log, widest.from, widest.to));
  const best = windowOf(between(log, narrowest.from, narrowest.to));
  const cycle = options.cycle === undefined ? null : worstCycle(log, parts, options.cycle, sampling.interval);
  const windows = found.reduce((sum, scanned) => sum + scanned.windows, 0);
  const longest = parts.reduce((a, b) => (b.times.length > a.times.length ? b : a));
  const even = isEven(longest, sampling.interval);
  const allan = even ? allanDeviations(longest.values, sampling.interval) : [];
  const checks: Check[] = [
    {
      check: "window of at least 30 min (common practice)",
      passed: window >= SHORTEST_WINDOW,
      found: duration(window),
    },
    {
      check: "window no shorter than the calibration takes (common practice)",
      passed: window >= options.calibration,
      found: `${duration(window)}; the calibration takes ${duration(options.calibration)}`,
    },
    {
      check: "log without gaps",
      passed: sampling.gaps.length === 0,
      found:
        sampling.gaps.length === 0
          ? `none longer than ${duration(sampling.maximumGap)}`
          : sampling.gaps.slice(0, 3).map(describeGap).join("; "),
    },
    {
      check: "log longer than one window, so that the worst can be found",
      passed: windows > 1,
      found: `${windows} windows, each started by another sample`,
    },
  ];
  return {
    thermometer: log.thermometer,
    sampling,
    window,
    windows,
    worst,
    best,
    whole: windowOf(log),
    allan,
    readingNoise: allan[0]?.deviation ?? null,
    noiseAdded: allan[0] === undefined ? null : mostOfNoise(allan[0].deviation, worst.samples),
    cycle,
    halfWidth: cycle?.worst.halfRange ?? worst.halfRange,
    checks,
    reasoning: [
      `${duration(window)} slid over ${sampling.samples} readings, one every ${duration(sampling.interval)}; the worst window starts at ${showInstant(worst.from)}`,
      `half of its span is ${millikelvin(worst.halfRange)} (the quietest window: ${millikelvin(best.halfRange)}); s is ${millikelvin(worst.standardDeviation)}`,
      `of that, drift of ${millikelvin(worst.slope * 3600)} an hour moves ${millikelvin(Math.abs(worst.slope) * window)} through the window; ` +
        `what fluctuates about it has s ${millikelvin(worst.fluctuation)}`,
      ...noiseInWords(allan[0]?.deviation, worst.samples),
      cycleInWords(cycle, window),
      averagingInWords(allan, even),
    ],
  };
}

/** The worst window as long as one cycle. @throws {InputError} a cycle of fewer than two sampling intervals */
function worstCycle(
  log: ThermometerLog,
  parts: readonly ThermometerLog[],
  length: number,
  interval: number,
): CycleStability {
  if (length < 2 * interval)
    refuse("stability.cycleMinutes", length / 60, `at least two sampling intervals of ${duration(interval)}`);
  const widest = parts.map((part) => scan(part, length, interval).high).reduce((a, b) => (b.range > a.range ? b : a));
  if (widest.range < 0) refuse("stability.cycleMinutes", length / 60, "no more than the log without a gap");
  return { length, worst: windowOf(between(log, widest.from, widest.to)) };
}

/** Mean of the greatest of n independent normal values is below σ·√(2 ln n): a bound, whatever the bath does. */
const mostOfNoise = (noise: number, samples: number): number => noise * Math.sqrt(2 * elementary.ln(samples));

const noiseInWords = (noise: number | undefined, samples: number): string[] =>
  noise === undefined
    ? []
    : [
        `a single reading varies by ${millikelvin(noise)} from one to the next: as noise of the monitor it would add up to ` +
          `${millikelvin(mostOfNoise(noise, samples))} to the half-span of ${samples} readings, and is left in`,
      ];

const cycleInWords = (cycle: CycleStability | null, window: number): string =>
  cycle === null
    ? `if the comparison is read in drift-corrected cycles, the half-span of ${duration(window)} counts again what the correction ` +
      "removes and the scatter of the differences contains: state stability.cycleMinutes"
    : `over ${duration(cycle.length)}, the time of one drift-corrected cycle, half of the worst span is ${millikelvin(cycle.worst.halfRange)}, ` +
      "and this is the figure stated: slower drift is corrected in every cycle. Steady drift within the cycle, " +
      `${millikelvin((Math.abs(cycle.worst.slope) * cycle.length) / 2)} of it, cancels too in a symmetric sequence of readings, and is left in`;

function averagingInWords(allan: readonly AllanPoint[], even: boolean): string {
  if (!even) return "the samples are not evenly spaced: no Allan deviation";
  if (allan.length < 2) return "too few samples for an Allan deviation";
  const least = allan.reduce((a, b) => (b.deviation < a.deviation ? b : a));
  const gain = allan[0]!.deviation / least.deviation;
  if (least.averaged === 1) {
    return `Allan deviation ${millikelvin(allan[0]!.deviation)} from reading to reading: averaging gains nothing: the bath moves more than the readings scatter`;
  }
  return (
    `Allan deviation ${millikelvin(allan[0]!.deviation)} from reading to reading, ${millikelvin(least.deviation)} at ${duration(least.time)}: ` +
    `averaging over this time improves means ${figure(gain)}-fold; longer gains nothing`
  );
}

/** Even to a tenth of the interval, as the Allan deviation asks. */
function isEven({ times }: ThermometerLog, interval: number): boolean {
  for (let i = 1; i < times.length; i++)
    if (Math.abs(times[i]! - times[i - 1]! - interval) > 0.1 * interval) return false;
  return true;
}

function windowOf({ times, values }: ThermometerLog): StabilityWindow {
  let least = Infinity;
  let most = -Infinity;
  for (const value of values) {
    if (value < least) least = value;
    if (value > most) most = value;
  }
  const line = straightLine(times, values);
  return {
    from: times[0]!,
    to: times.at(-1)!,
    samples: times.length,
    halfRange: (most - least) / 2,
    standardDeviation: sampleStatistics(values).standardDeviation,
    slope: line.slope,
    fluctuation: line.residualDeviation,
  };
}

interface Scanned {
  readonly range: number;
  readonly from: number;
  readonly to: number;
}

/** Slides a window over one uninterrupted part, keeping the running extremes in two monotone queues: linear in time. */
function scan({ times, values }: ThermometerLog, window: number, interval: number) {
  const n = times.length;
  const highs = new Int32Array(n);
  const lows = new Int32Array(n);
  let highStart = 0;
  let highEnd = 0;
  let lowStart = 0;
  let lowEnd = 0;
  let next = 0;
  let windows = 0;
  let high: Scanned = { range: -1, from: 0, to: 0 };
  let low: Scanned = { range: Infinity, from: 0, to: 0 };
  // A sample stands for its interval, so a window may lack part of one; rounding of the clock must not cost a window.
  const full = window - interval * (1 + 1e-9);
  for (let start = 0; start < n; start++) {
    while (next < n && times[next]! - times[start]! <= window * (1 + 1e-12)) {
      while (highEnd > highStart && values[highs[highEnd - 1]!]! <= values[next]!) highEnd--;
      while (lowEnd > lowStart && values[lows[lowEnd - 1]!]! >= values[next]!) lowEnd--;
      highs[highEnd++] = next;
      lows[lowEnd++] = next;
      next++;
    }
    if (times[next - 1]! - times[start]! < full) break;
    while (highs[highStart]! < start) highStart++;
    while (lows[lowStart]! < start) lowStart++;
    const range = values[highs[highStart]!]! - values[lows[lowStart]!]!;
    windows++;
    if (range > high.range) high = { range, from: times[start]!, to: times[next - 1]! };
    if (range < low.range) low = { range, from: times[start]!, to: times[next - 1]! };
  }
  return { windows, high, low };
}
