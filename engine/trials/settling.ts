import { mergeMoments, NO_MOMENTS, standardDeviation, type Moments } from "../statistics/moments.ts";
import type { Figure, SettlingPoint } from "../record/monte-carlo.ts";
import { numericalTolerance } from "../validation/numerical-tolerance.ts";
import type { MeasurandBatch } from "./batch.ts";
import { RunningFigure, type RunningFigureState } from "../statistics/running-figure.ts";

/** The four figures the adaptive procedure watches (JCGM 101, 7.9.4). */
export const FIGURES = ["estimate", "standardUncertainty", "low", "high"] as const satisfies readonly Figure[];

/** Which moments the distribution of a measurand has, as far as this follows from its inputs' distributions. */
export interface ExistingMoments {
  readonly mean: boolean;
  readonly deviation: boolean;
  /** The fourth, on which the standard error of u(y) rests. */
  readonly fourth: boolean;
}

/** Fewest batches that have a spread. */
export const FEWEST_TO_SETTLE = 2;
/** Points of the history once it is thinned; it grows to twice as many and is halved. */
const HISTORY = 120;

/** How far a measurand has settled, as plain data. */
export interface SettlingState {
  readonly moments: Moments;
  readonly figures: Readonly<Record<Figure, RunningFigureState>>;
  readonly history: readonly SettlingPoint[];
  readonly stride: number;
}

/**
 * Follows one measurand through the batches and decides whether its figures have stabilised: 2·s_z ≤ limit for y, u(y)
 * and both endpoints (JCGM 101, 7.9.4).
 */
export class Settling {
  readonly #watched: readonly Figure[];
  readonly #digits: 1 | 2;
  readonly #deviation: boolean;
  readonly #linear: number;
  #moments: Moments = NO_MOMENTS;
  readonly #figures: Readonly<Record<Figure, RunningFigure>>;
  #history: SettlingPoint[] = [];
  /** Number of batches between points of the history. */
  #stride = 1;

  /**
   * @param linear u(y) of the linear budget, whose δ the verdict is held against (JCGM 101, 8.1)
   * @param from goes on from there
   */
  constructor(digits: 1 | 2, moments: ExistingMoments, linear: number, from?: SettlingState) {
    this.#digits = digits;
    this.#deviation = moments.deviation;
    this.#linear = linear;
    this.#watched = FIGURES.filter(
      (figure) =>
        (figure !== "estimate" || (moments.mean && moments.deviation)) &&
        (figure !== "standardUncertainty" || moments.fourth),
    );
    this.#figures = {
      estimate: new RunningFigure(from?.figures.estimate),
      standardUncertainty: new RunningFigure(from?.figures.standardUncertainty),
      low: new RunningFigure(from?.figures.low),
      high: new RunningFigure(from?.figures.high),
    };
    if (from === undefined) return;
    this.#moments = from.moments;
    this.#history = [...from.history];
    this.#stride = from.stride;
  }

  get state(): SettlingState {
    const { estimate, standardUncertainty, low, high } = this.#figures;
    return {
      moments: this.#moments,
      figures: {
        estimate: estimate.state,
        standardUncertainty: standardUncertainty.state,
        low: low.state,
        high: high.state,
      },
      history: [...this.#history],
      stride: this.#stride,
    };
  }

  /** Adds one whole batch; batches come in order. */
  add(batch: MeasurandBatch): void {
    this.#moments = mergeMoments(this.#moments, batch.moments);
    const [low, high] = batch.interval;
    this.#figures.estimate.add(batch.moments.mean);
    this.#figures.standardUncertainty.add(standardDeviation(batch.moments));
    this.#figures.low.add(low);
    this.#figures.high.add(high);
    if (this.batches % this.#stride === 0) this.#history.push(this.#point());
    if (this.#history.length === 2 * HISTORY) {
      this.#history = this.#history.filter((_, i) => i % 2 === 1);
      this.#stride *= 2;
    }
  }

  get batches(): number {
    return this.#figures.low.batches;
  }

  /**
   * δ to the digits that the study regards as meaningful: the smaller of the δ of u(y) from all trials so far, with which
   * the result is stated (JCGM 101, 7.9), and the δ of the linear u(y), by which the verdict is made (8.1). A u(y) that is
   * 0 or does not exist has no δ.
   */
  get tolerance(): number {
    const found = this.#deviation ? standardDeviation(this.#moments) : 0;
    const tolerances = [found, this.#linear].filter((u) => u > 0).map((u) => numericalTolerance(u, this.#digits));
    return tolerances.length === 0 ? 0 : Math.min(...tolerances);
  }

  /** Whether a figure exists and so has to stabilise. */
  watches(figure: Figure): boolean {
    return this.#watched.includes(figure);
  }

  /** s_z of a figure: the standard deviation of its average over the batches. */
  standardError(figure: Figure): number {
    return this.#figures[figure].standardError;
  }

  /** Standard deviation of a figure from batch to batch. */
  batchDeviation(figure: Figure): number {
    return this.#figures[figure].deviation;
  }

  /**
   * Whether every watched figure has stabilised to within δ divided by `divisor` (5 for validation: JCGM 101, 8.2).
   *
   * @param standardErrors of each figure from its own distribution, if it has one. The spread over two or three batches is
   *   too small by chance in one run of twenty, so that it alone must not end the run. Called only if that spread is
   *   small enough.
   */
  settled(divisor: number, standardErrors: () => Partial<Record<Figure, number>>): boolean {
    if (this.batches < FEWEST_TO_SETTLE) return false;
    const limit = this.tolerance / divisor;
    if (!this.#watched.every((figure) => 2 * this.standardError(figure) <= limit)) return false;
    const errors = standardErrors();
    return this.#watched.every((figure) => 2 * (errors[figure] ?? 0) <= limit);
  }

  /** The figures at evenly spaced points, at most about 240 of them, and at the last. */
  get history(): SettlingPoint[] {
    const beyond = this.batches > 0 && this.batches % this.#stride !== 0;
    return beyond ? [...this.#history, this.#point()] : [...this.#history];
  }

  #point(): SettlingPoint {
    const watched = (figure: Figure, value: number): number | null => (this.watches(figure) ? value : null);
    const averages = {} as Record<Figure, number | null>;
    const doubled = {} as Record<Figure, number | null>;
    for (const figure of FIGURES) {
      averages[figure] = watched(figure, this.#figures[figure].mean);
      doubled[figure] = this.batches < 2 ? null : watched(figure, 2 * this.standardError(figure));
    }
    return { trials: this.#moments.count, averages, doubled };
  }
}
