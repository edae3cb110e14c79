import { straightLine } from "./straight-line.ts";

/** What is asked of a bath whose log goes on. */
export interface FollowOptions {
  /** Length of the window, s. */
  readonly window: number;
  /** Half-width the readings of a window must stay within, K; `null` if none is asked for. */
  readonly criterion: number | null;
  /** A silence longer than this, s, ends a window. Default: 2.5 usual intervals. */
  readonly maximumGap?: number | undefined;
}

/** A stretch of a log and half its span, s and K. */
export interface FollowedWindow {
  readonly from: number;
  readonly to: number;
  readonly halfRange: number;
}

/** Whether the criterion is met, since when, and what is still wanting. */
export interface CriterionState {
  readonly limit: number;
  /** Whether a whole window up to the last reading stays within the limit. */
  readonly met: boolean;
  /** Moment from which every window up to now has met it; `null` if it is not met. */
  readonly since: number | null;
  /** Start of the longest stretch up to now that stays within the limit. */
  readonly steadyFrom: number;
  /** How long the bath must still hold, s; 0 once it is met. */
  readonly remaining: number;
}

/** How a bath stands at the last reading of its log. */
export interface Followed {
  readonly samples: number;
  readonly from: number;
  readonly to: number;
  /** Last reading, °C. */
  readonly value: number;
  /** Usual interval between readings, s; `null` after one reading. */
  readonly interval: number | null;
  readonly gaps: number;
  /** Slope of the straight line through the latest window, K/s; `null` for fewer than three readings. */
  readonly drift: number | null;
  /** The latest window as far as there is one; `whole` once it is as long as asked. */
  readonly latest: FollowedWindow & { readonly whole: boolean };
  /** The whole window with the largest span up to now; `null` before there is one. */
  readonly worst: FollowedWindow | null;
  readonly criterion: CriterionState | null;
}

/** Intervals the usual one is told from. */
const INTERVALS = 255;
/** Samples behind the window that are kept before they are forgotten together. */
const FORGET = 4096;

/**
 * Stability of a bath while its log grows: the same windows as `evaluateStability` judges, found reading by reading in
 * memory bounded by one window. A window ends at each reading and reaches back as far as its length; the widest of them
 * is the widest of those that begin at each reading, since each of these lies within one of those.
 */
export class StabilityFollower {
  readonly #options: FollowOptions;
  #times: number[] = [];
  #values: number[] = [];
  /** Number of the first sample that is kept. */
  #base = 0;
  #samples = 0;
  #first = 0;
  /** First sample of the window, and of the stretch within the limit. */
  #start = 0;
  #steady = 0;
  readonly #windowEnds = extremes();
  readonly #steadyEnds = extremes();
  #intervals: number[] = [];
  #interval: number | null = null;
  #gaps = 0;
  #worst: FollowedWindow | null = null;
  #since: number | null = null;

  constructor(options: FollowOptions) {
    this.#options = options;
  }

  /** Takes a reading, later than the one before. */
  take(time: number, value: number): void {
    const n = this.#samples++;
    if (n === 0) this.#first = time;
    else this.#gapOrInterval(time - this.#time(n - 1), n);
    this.#times.push(time);
    this.#values.push(value);
    const { window, criterion } = this.#options;
    const at = (i: number): number => this.#value(i);
    while (time - this.#time(this.#start) > window * (1 + 1e-12)) this.#start++;
    this.#windowEnds.add(n, this.#start, at);
    if (this.#isWhole(time - this.#time(this.#start))) {
      const halfRange = this.#windowEnds.range(at) / 2;
      if (this.#worst === null || halfRange > this.#worst.halfRange)
        this.#worst = { from: this.#time(this.#start), to: time, halfRange };
    }
    if (criterion !== null) {
      // Beyond the window nothing is kept, and nothing more is asked.
      this.#steady = Math.max(this.#steady, this.#start);
      this.#steadyEnds.add(n, this.#steady, at);
      while (this.#steadyEnds.range(at) > 2 * criterion * (1 + 1e-12)) this.#steadyEnds.drop(++this.#steady);
      if (!this.#isWhole(time - this.#time(this.#steady))) this.#since = null;
      else this.#since ??= time;
    }
    const unneeded = Math.min(this.#start, this.#steady) - this.#base;
    if (unneeded > FORGET) {
      this.#times = this.#times.slice(unneeded);
      this.#values = this.#values.slice(unneeded);
      this.#base += unneeded;
    }
  }

  #time(i: number): number {
    return this.#times[i - this.#base]!;
  }

  #value(i: number): number {
    return this.#values[i - this.#base]!;
  }

  /** A sample stands for its interval, so a window may lack part of one. */
  #isWhole(length: number): boolean {
    return length >= this.#options.window - (this.#interval ?? 0) * (1 + 1e-9) && length > 0;
  }

  #gapOrInterval(interval: number, n: number): void {
    const limit = this.#options.maximumGap ?? (this.#intervals.length < 3 ? Infinity : 2.5 * this.#interval!);
    if (interval > limit) {
      this.#gaps++;
      this.#start = this.#steady = n;
      this.#windowEnds.clear();
      this.#steadyEnds.clear();
      this.#since = null;
      return;
    }
    this.#intervals.push(interval);
    if (this.#intervals.length > 2 * INTERVALS) this.#intervals = this.#intervals.slice(-INTERVALS);
    // The median of some hundred does not change with each reading.
    if (this.#interval === null || n < INTERVALS || n % 64 === 0)
      this.#interval = this.#intervals.toSorted((a, b) => a - b)[Math.floor(this.#intervals.length / 2)]!;
  }

  /** How it stands; `null` before the first reading. */
  state(): Followed | null {
    if (this.#samples === 0) return null;
    const last = this.#samples - 1;
    const [from, to] = [this.#time(this.#start), this.#time(last)];
    const { window, criterion } = this.#options;
    const times = this.#times.slice(this.#start - this.#base);
    const steadyFrom = this.#time(this.#steady);
    return {
      samples: this.#samples,
      from: this.#first,
      to,
      value: this.#value(last),
      interval: this.#interval,
      gaps: this.#gaps,
      drift:
        times.length < 3
          ? null
          : straightLine(Float64Array.from(times), Float64Array.from(this.#values.slice(this.#start - this.#base)))
              .slope,
      latest: {
        from,
        to,
        halfRange: this.#windowEnds.range((i) => this.#value(i)) / 2,
        whole: this.#isWhole(to - from),
      },
      worst: this.#worst,
      criterion:
        criterion === null
          ? null
          : {
              limit: criterion,
              met: this.#since !== null,
              since: this.#since,
              steadyFrom,
              remaining: this.#since !== null ? 0 : Math.max(0, window - (this.#interval ?? 0) - (to - steadyFrom)),
            },
    };
  }
}

/** Highest and lowest of a stretch that moves on, in two monotone queues of sample numbers. */
function extremes() {
  let highs: number[] = [];
  let lows: number[] = [];
  const drop = (first: number): void => {
    while (highs.length > 0 && highs[0]! < first) highs.shift();
    while (lows.length > 0 && lows[0]! < first) lows.shift();
  };
  return {
    add(sample: number, first: number, at: (i: number) => number): void {
      const value = at(sample);
      while (highs.length > 0 && at(highs.at(-1)!) <= value) highs.pop();
      while (lows.length > 0 && at(lows.at(-1)!) >= value) lows.pop();
      highs.push(sample);
      lows.push(sample);
      drop(first);
    },
    drop,
    range: (at: (i: number) => number): number => (highs.length === 0 ? 0 : at(highs[0]!) - at(lows[0]!)),
    clear(): void {
      highs = [];
      lows = [];
    },
  };
}
