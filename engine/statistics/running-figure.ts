import { powerOfTwoAbove } from "../numerics/power-of-two.ts";

/** The square of a step between these keeps its digits. */
const LEAST_STEP = 1e-120;
const GREATEST_STEP = 1e120;

/** A running figure as plain data. */
export interface RunningFigureState {
  readonly batches: number;
  readonly mean: number;
  readonly squares: number;
  readonly scale: number;
}

/** The average of a figure over batches, and its standard deviation (JCGM 101, 7.9.4). */
export class RunningFigure {
  #batches = 0;
  #mean = 0;
  /** Sum of the squared deviations from the average, in units of the square of `scale`. */
  #squares = 0;
  /** A power of two: 1, unless squares would leave the range of a double. */
  #scale = 1;

  /** @param from goes on from there */
  constructor(from?: RunningFigureState) {
    if (from === undefined) return;
    this.#batches = from.batches;
    this.#mean = from.mean;
    this.#squares = from.squares;
    this.#scale = from.scale;
  }

  get state(): RunningFigureState {
    return { batches: this.#batches, mean: this.#mean, squares: this.#squares, scale: this.#scale };
  }

  add(value: number): void {
    this.#batches += 1;
    const step = value - this.#mean;
    this.#mean += step / this.#batches;
    if (this.#batches === 1) return;
    const size = Math.abs(step);
    if (this.#squares === 0 && size > 0 && !(size > LEAST_STEP && size < GREATEST_STEP)) {
      this.#scale = powerOfTwoAbove(size);
    }
    this.#squares += (step / this.#scale) * ((value - this.#mean) / this.#scale);
  }

  get batches(): number {
    return this.#batches;
  }
  get mean(): number {
    return this.#mean;
  }
  /** s_z: the standard deviation of the average. */
  get standardError(): number {
    return this.#batches < 2
      ? Infinity
      : this.#scale * Math.sqrt(this.#squares / (this.#batches * (this.#batches - 1)));
  }
  /** Standard deviation of the figure from batch to batch. */
  get deviation(): number {
    return this.#batches < 2 ? Infinity : this.#scale * Math.sqrt(this.#squares / (this.#batches - 1));
  }
}
