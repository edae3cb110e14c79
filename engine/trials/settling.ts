import { mergeMoments, NO_MOMENTS, standardDeviation, type Moments } from "../statistics/moments.ts";
import type { Figure, SettlingPoint } from "../record/monte-carlo.ts";
import { numericalTolerance } from "../validation/numerical-tolerance.ts";
import type { MeasurandBatch } from "./batch.ts";
import { RunningFigure } from "./running-figure.ts";

/** The four figures the adaptive procedure watches (JCGM 101, 7.9.4). */
export const FIGURES = ["estimate", "standardUncertainty", "low", "high"] as const satisfies readonly Figure[];

/** Points of the history once it is thinned; it grows to twice as many and is halved. */
const HISTORY = 120;

/**
 * Follows one measurand through the batches and decides whether its figures have stabilised: 2·s_z ≤ limit for y, u(y)
 * and both endpoints (JCGM 101, 7.9.4).
 */
export class Settling {
  readonly #watched: readonly Figure[];
  readonly #digits: 1 | 2;
  readonly #fallback: number;
  #moments: Moments = NO_MOMENTS;
  readonly #figures: Readonly<Record<Figure, RunningFigure>> = {
    estimate: new RunningFigure(),
    standardUncertainty: new RunningFigure(),
    low: new RunningFigure(),
    high: new RunningFigure(),
  };
  #history: SettlingPoint[] = [];
  /** Number of batches between points of the history. */
  #stride = 1;

  /**
   * @param moments whether the distribution has a mean and a standard deviation; the endpoints always exist
   * @param fallback uncertainty from which δ is made if the distribution has no standard deviation
   */
  constructor(digits: 1 | 2, moments: { readonly mean: boolean; readonly deviation: boolean }, fallback: number) {
    this.#digits = digits;
    this.#fallback = moments.deviation ? 0 : fallback;
    this.#watched = FIGURES.filter(
      (figure) =>
        (figure !== "estimate" || (moments.mean && moments.deviation)) &&
        (figure !== "standardUncertainty" || moments.deviation),
    );
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

  /** δ of the standard uncertainty from all trials so far, to the digits that the study regards as meaningful. */
  get tolerance(): number {
    return numericalTolerance(this.#fallback > 0 ? this.#fallback : standardDeviation(this.#moments), this.#digits);
  }

  /** s_z of a figure: the standard deviation of its average over the batches. */
  standardError(figure: Figure): number {
    return this.#figures[figure].standardError;
  }

  /** Spread of a figure from batch to batch. */
  batchDeviation(figure: Figure): number {
    return this.#figures[figure].deviation;
  }

  /** Whether every figure has stabilised to within δ divided by `divisor` (5 for validation: JCGM 101, 8.2). */
  settled(divisor: number): boolean {
    if (this.batches < 2) return false;
    const limit = this.tolerance / divisor;
    return this.#watched.every((figure) => 2 * this.standardError(figure) <= limit);
  }

  /** The figures at evenly spaced points, at most about 240 of them, and at the last. */
  get history(): SettlingPoint[] {
    const beyond = this.batches > 0 && this.batches % this.#stride !== 0;
    return beyond ? [...this.#history, this.#point()] : [...this.#history];
  }

  #point(): SettlingPoint {
    const watched = (figure: Figure, value: number): number | null => (this.#watched.includes(figure) ? value : null);
    const averages = {} as Record<Figure, number | null>;
    const doubled = {} as Record<Figure, number | null>;
    for (const figure of FIGURES) {
      averages[figure] = watched(figure, this.#figures[figure].mean);
      doubled[figure] = this.batches < 2 ? null : watched(figure, 2 * this.standardError(figure));
    }
    return { trials: this.#moments.count, averages, doubled };
  }
}
