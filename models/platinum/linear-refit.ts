/**
 * A linear least-squares fit once a trial: observations = design × parameters, both changing from trial to trial.
 * Householder QR on arrays made once, with √ alone: a matrix library allocates a dozen objects a fit, which at a million
 * trials costs ten times the arithmetic. The tests compare it with `leastSquares`.
 */
export class LinearRefit {
  /** In: the design, column by column; destroyed by `solve`. */
  readonly design: Float64Array;
  /** In: the observations; destroyed by `solve`. */
  readonly observed: Float64Array;
  /** Out. */
  readonly parameters: Float64Array;
  readonly #points: number;
  readonly #columns: number;
  /** L of the observations' covariance LLᵀ, row by row; `null` if all count alike. */
  readonly #factor: Float64Array | null;
  readonly #diagonal: Float64Array;

  /** @param factor L of the observations' joint covariance LLᵀ: the fit minimises the squares of L⁻¹r */
  constructor(points: number, columns: number, factor: readonly (readonly number[])[] | null = null) {
    this.#points = points;
    this.#columns = columns;
    this.#factor = factor === null ? null : Float64Array.from(factor.flat());
    this.design = new Float64Array(points * columns);
    this.observed = new Float64Array(points);
    this.parameters = new Float64Array(columns);
    this.#diagonal = new Float64Array(columns);
  }

  /** Fits what is now in place. False if the observations do not determine the parameters. */
  solve(): boolean {
    const [n, p, X, y] = [this.#points, this.#columns, this.design, this.observed];
    if (this.#factor !== null) {
      for (let c = 0; c < p; c++) forward(this.#factor, X, c * n, n);
      forward(this.#factor, y, 0, n);
    }
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
    return true;
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
