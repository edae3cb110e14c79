/** The average of a figure over batches, and its standard deviation (JCGM 101, 7.9.4). */
export class RunningFigure {
  #batches = 0;
  #mean = 0;
  #squares = 0;

  add(value: number): void {
    this.#batches += 1;
    const step = value - this.#mean;
    this.#mean += step / this.#batches;
    this.#squares += step * (value - this.#mean);
  }

  get batches(): number {
    return this.#batches;
  }
  get mean(): number {
    return this.#mean;
  }
  /** s_z: the standard deviation of the average. */
  get standardError(): number {
    return this.#batches < 2 ? Infinity : Math.sqrt(this.#squares / (this.#batches * (this.#batches - 1)));
  }
  /** Spread of the figure from batch to batch. */
  get deviation(): number {
    return this.#batches < 2 ? Infinity : Math.sqrt(this.#squares / (this.#batches - 1));
  }
}
