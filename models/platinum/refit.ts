/**
 * The fit of `fit.ts` once a trial: R₀, A, B (and C) from n points whose temperatures and resistances change from trial
 * to trial. Householder QR on arrays made once, with √ alone: a matrix library allocates a dozen objects a fit, which at
 * a million trials costs ten times the arithmetic. The tests compare it with `leastSquares`.
 */
export class Refit {
  /** In: temperatures, °C. */
  readonly temperatures: Float64Array;
  /** In: resistances, Ω. */
  readonly resistances: Float64Array;
  /** Out: R₀ and the products R₀A, R₀B and, if fitted, R₀C. */
  readonly parameters: Float64Array;
  readonly #points: number;
  readonly #columns: 3 | 4;
  readonly #heldC: number;
  readonly #roots: Float64Array;
  /** L of the points' covariance LLᵀ, row by row; `null` if the points are weighed one by one. */
  readonly #factor: Float64Array | null;
  readonly #design: Float64Array;
  readonly #right: Float64Array;
  readonly #diagonal: Float64Array;

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
    this.#columns = heldC === null ? 4 : 3;
    this.#heldC = heldC ?? 0;
    this.#roots = Float64Array.from(weights, Math.sqrt);
    this.#factor = factor === null ? null : Float64Array.from(factor.flat());
    this.temperatures = new Float64Array(points);
    this.resistances = new Float64Array(points);
    this.parameters = new Float64Array(this.#columns);
    this.#design = new Float64Array(points * this.#columns);
    this.#right = new Float64Array(points);
    this.#diagonal = new Float64Array(this.#columns);
  }

  /** Fits the points now in place. False if they do not determine the coefficients. */
  solve(): boolean {
    this.#fill();
    const [n, p, X, y] = [this.#points, this.#columns, this.#design, this.#right];
    for (let k = 0; k < p; k++) {
      const first = k * n;
      let square = 0;
      for (let i = k; i < n; i++) square += X[first + i]! * X[first + i]!;
      const head = X[first + k]!;
      const norm = head > 0 ? -Math.sqrt(square) : Math.sqrt(square);
      if (!(norm !== 0)) return false;
      this.#diagonal[k] = norm;
      X[first + k] = head - norm;
      const scale = 1 / (norm * X[first + k]!);
      for (let c = k + 1; c < p; c++) reflect(X, first, X, c * n, k, n, scale);
      reflect(X, first, y, 0, k, n, scale);
    }
    const q = this.parameters;
    for (let k = p - 1; k >= 0; k--) {
      let rest = y[k]!;
      for (let c = k + 1; c < p; c++) rest -= X[c * n + k]! * q[c]!;
      q[k] = rest / this.#diagonal[k]!;
    }
    return q[0]! > 0;
  }

  #fill(): void {
    const n = this.#points;
    for (let i = 0; i < n; i++) {
      const w = this.#roots[i]!;
      const t = this.temperatures[i]!;
      const cubic = t < 0 ? (t - 100) * t * t * t : 0;
      this.#design[i] = w * (1 + this.#heldC * cubic);
      this.#design[n + i] = w * t;
      this.#design[2 * n + i] = w * t * t;
      if (this.#columns === 4) this.#design[3 * n + i] = w * cubic;
      this.#right[i] = w * this.resistances[i]!;
    }
    if (this.#factor === null) return;
    for (let c = 0; c < this.#columns; c++) forward(this.#factor, this.#design, c * n, n);
    forward(this.#factor, this.#right, 0, n);
  }
}

/** L⁻¹x in place. */
function forward(L: Float64Array, x: Float64Array, from: number, n: number): void {
  for (let i = 0; i < n; i++) {
    let rest = x[from + i]!;
    for (let j = 0; j < i; j++) rest -= L[i * n + j]! * x[from + j]!;
    x[from + i] = rest / L[i * n + i]!;
  }
}

/** Applies the reflection of a column (from `k` on) to another; `scale` is −2/vᵀv. */
function reflect(
  v: Float64Array,
  from: number,
  x: Float64Array,
  at: number,
  k: number,
  n: number,
  scale: number,
): void {
  let dot = 0;
  for (let i = k; i < n; i++) dot += v[from + i]! * x[at + i]!;
  const factor = dot * scale;
  for (let i = k; i < n; i++) x[at + i] = x[at + i]! + factor * v[from + i]!;
}
