import {
  excessKurtosis,
  mergeMoments,
  momentsOf,
  NO_MOMENTS,
  standardDeviation,
  type Moments,
} from "../statistics/moments.ts";
import type { Factor } from "./factor.ts";
import type { AloneRecord } from "../record/sensitivity.ts";

/** A slope has a direction if its correlation exceeds this number of standard errors of zero correlation (1/√M). */
const SEEN = 4;

/**
 * One factor drawn alone, the others at their estimates (JCGM 101:2008, annex B): accumulates the resulting model values
 * of one measurand, block by block.
 */
export class OneAtATime {
  readonly #factor: Factor;
  /** The measurand at the estimates. */
  readonly #centre: number;
  #input: Moments = NO_MOMENTS;
  #output: Moments = NO_MOMENTS;
  /** Σ (x − mean x)(y − mean y), in units of the scales of both, which are those of the first block. */
  #together = 0;
  #scales: readonly [x: number, y: number] | null = null;

  constructor(factor: Factor, centre: number) {
    this.#factor = factor;
    this.#centre = centre;
  }

  /** Adds a block: the factor's only input (ignored if it has several) and the measurand. */
  add(input: Float64Array, output: Float64Array): void {
    const y = momentsOf(output);
    if (this.#factor.inputs.length === 1) {
      const x = momentsOf(input);
      const [scaleX, scaleY] = (this.#scales ??= [x.scale, y.scale]);
      let together = 0;
      for (let i = 0; i < input.length; i++)
        together += ((input[i]! - x.mean) / scaleX) * ((output[i]! - y.mean) / scaleY);
      const n = this.#input.count;
      if (n > 0) {
        const [stepX, stepY] = [(x.mean - this.#input.mean) / scaleX, (y.mean - this.#output.mean) / scaleY];
        together += stepX * stepY * ((n * x.count) / (n + x.count));
      }
      this.#together += together;
      this.#input = mergeMoments(this.#input, x);
    }
    this.#output = mergeMoments(this.#output, y);
  }

  /** u_i(y), or `null` if the factor has no standard deviation. */
  get standardUncertainty(): number | null {
    return this.#factor.hasStandardDeviation ? standardDeviation(this.#output) : null;
  }

  record(): AloneRecord {
    const u = this.standardUncertainty;
    if (u === null) {
      return {
        standardUncertainty: null,
        standardError: null,
        shift: null,
        sensitivityCoefficient: null,
        correlation: null,
        direction: null,
      };
    }
    const M = this.#output.count;
    const single = this.#factor.inputs.length === 1;
    const correlation = single ? this.#correlation() : null;
    const direction =
      correlation === null
        ? null
        : Math.abs(correlation) * Math.sqrt(M) < SEEN
          ? "neither"
          : correlation > 0
            ? "rises"
            : "falls";
    const sign = direction === "falls" ? -1 : 1;
    const stated = this.#factor.distributions[0]!.standardDeviation!;
    return {
      standardUncertainty: u,
      standardError: u * Math.sqrt(Math.max(0, excessKurtosis(this.#output) + 2) / (4 * M)),
      shift: this.#output.mean - this.#centre,
      sensitivityCoefficient: single && stated > 0 ? (sign * u) / stated : null,
      correlation,
      direction,
    };
  }

  #correlation(): number {
    const [scaleX, scaleY] = this.#scales ?? [1, 1];
    const x = Math.sqrt(this.#input.m2) * (this.#input.scale / scaleX);
    const y = Math.sqrt(this.#output.m2) * (this.#output.scale / scaleY);
    return x === 0 || y === 0 ? 0 : Math.max(-1, Math.min(1, this.#together / x / y));
  }
}

/** The record of a factor that does not vary. */
export const still = (factor: Factor): AloneRecord => ({
  standardUncertainty: 0,
  standardError: 0,
  shift: 0,
  sensitivityCoefficient: null,
  correlation: factor.inputs.length === 1 ? 0 : null,
  direction: factor.inputs.length === 1 ? "neither" : null,
});
