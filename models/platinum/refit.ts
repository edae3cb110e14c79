import { LinearRefit } from "./linear-refit.ts";

/** The fit of `fit.ts` once a trial: R₀, A, B (and C) from n points whose temperatures and resistances change. */
export class Refit {
  /** In: temperatures, °C. */
  readonly temperatures: Float64Array;
  /** In: resistances, Ω. */
  readonly resistances: Float64Array;
  readonly #points: number;
  readonly #heldC: number | null;
  readonly #roots: Float64Array;
  readonly #linear: LinearRefit;

  /**
   * @param heldC C/(1/°C⁴) if it is not fitted, `null` if it is
   * @param weights one a point: the fit minimises Σ wᵢrᵢ²
   * @param factor L of the points' joint covariance LLᵀ: the fit minimises the squares of L⁻¹r, and weights are all 1
   */
  constructor(
    points: number,
    heldC: number | null,
    weights: readonly number[],
    factor: readonly (readonly number[])[] | null = null,
  ) {
    this.#points = points;
    this.#heldC = heldC;
    this.#roots = Float64Array.from(weights, Math.sqrt);
    this.#linear = new LinearRefit(points, heldC === null ? 4 : 3, factor);
    this.temperatures = new Float64Array(points);
    this.resistances = new Float64Array(points);
  }

  /** Out: R₀ and the products R₀A, R₀B and, if fitted, R₀C. */
  get parameters(): Float64Array {
    return this.#linear.parameters;
  }

  /** Fits the points now in place. False if they do not determine the coefficients. */
  solve(): boolean {
    const n = this.#points;
    const { design, observed } = this.#linear;
    const heldC = this.#heldC ?? 0;
    for (let i = 0; i < n; i++) {
      const w = this.#roots[i]!;
      const t = this.temperatures[i]!;
      const cubic = t < 0 ? (t - 100) * t * t * t : 0;
      design[i] = w * (1 + heldC * cubic);
      design[n + i] = w * t;
      design[2 * n + i] = w * t * t;
      if (this.#heldC === null) design[3 * n + i] = w * cubic;
      observed[i] = w * this.resistances[i]!;
    }
    return this.#linear.solve() && this.parameters[0]! > 0;
  }
}
