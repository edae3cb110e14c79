import { CholeskyDecomposition, Matrix, QrDecomposition } from "ml-matrix";
import { refuse } from "../../engine/index.ts";

/**
 * Linear least squares with correlated observations. The decompositions are those of ml-matrix: its QR (Householder,
 * scaled norms by its own square-root formula) and Cholesky use + − × ÷ √ alone, so results keep their bits.
 */
export interface LeastSquares {
  readonly parameters: readonly number[];
  /** Covariance of the parameters from the covariance given for the observations. */
  readonly covariance: readonly (readonly number[])[];
  /** Observed less fitted. */
  readonly residuals: readonly number[];
  /** Leverages: how far each fitted value follows its own observation. Diagonal of the hat matrix, sum = number of parameters. */
  readonly leverage: readonly number[];
  /** rᵀV⁻¹r, or Σ wᵢrᵢ² if weights were given. */
  readonly chiSquare: number;
  /** Observations less parameters. */
  readonly degreesOfFreedom: number;
}

export interface LeastSquaresOptions {
  /** Covariance of the observations; the unit matrix by default. */
  readonly covariance?: readonly (readonly number[])[] | undefined;
  /**
   * Weights other than the inverse covariance: the fit then minimises Σ wᵢrᵢ², and the covariance of the parameters is
   * still propagated from that of the observations.
   */
  readonly weights?: readonly number[] | undefined;
}

/** Below this sine of the angle to the other columns, a column of the design counts as dependent on them. */
const SINGULAR = 1e-13;

/**
 * Fits observations = design × parameters.
 *
 * @param design a row an observation, a column a parameter
 * @throws {InputError} fewer observations than parameters, columns that depend on one another, a covariance that is not
 *   symmetric and positive definite, weights not greater than 0
 */
export function leastSquares(
  design: readonly (readonly number[])[],
  observed: readonly number[],
  options: LeastSquaresOptions = {},
): LeastSquares {
  const n = observed.length;
  const p = design[0]?.length ?? 0;
  if (p === 0 || design.length !== n) {
    refuse("design", design.length, `a row for each of the ${n} observations, with at least one column`);
  }
  if (n < p) refuse("points", n, `at least ${p} points for ${p} coefficients`);
  const V = covarianceOf(options.covariance, n);
  const factor = options.weights === undefined ? choleskyFactor(V) : weightFactor(options.weights, n);

  const whitened = forward(
    factor,
    design.map((row) => [...row]),
  );
  const y = forward(
    factor,
    observed.map((value) => [value]),
  );
  // Columns of unit length: t² and t⁴ beside 1 would otherwise spread over ten orders.
  const lengths = Array.from({ length: p }, (_, k) =>
    Math.sqrt(whitened.reduce((sum, row) => sum + row[k]! * row[k]!, 0)),
  );
  const scaled = whitened.map((row) => row.map((value, k) => value / (lengths[k]! || 1)));
  const qr = new QrDecomposition(new Matrix(scaled));
  const R = qr.upperTriangularMatrix;
  for (let k = 0; k < p; k++) {
    if (!(Math.abs(R.get(k, k)) > SINGULAR * n)) {
      refuse(
        "points",
        `${n} points`,
        `points that determine all ${p} coefficients: coefficient ${k + 1} follows from the others here`,
      );
    }
  }
  const solution = qr.solve(new Matrix(y));
  const Q = qr.orthogonalMatrix;
  // Rows of G turn observations into scaled parameters: R⁻¹QᵀL⁻¹.
  const G = transposedSolve(factor, backSubstitute(R, Q.transpose()));
  const scale = (k: number): number => 1 / lengths[k]!;
  const parameters = lengths.map((_, k) => solution.get(k, 0) * scale(k));
  const propagated = options.weights === undefined ? gram(R) : G.mmul(V).mmul(G.transpose());
  const residuals = observed.map((value, i) => value - design[i]!.reduce((sum, x, k) => sum + x * parameters[k]!, 0));
  const white = forward(
    factor,
    residuals.map((value) => [value]),
  );
  return {
    parameters,
    covariance: lengths.map((_, j) => lengths.map((__, k) => propagated.get(j, k) * scale(j) * scale(k))),
    residuals,
    leverage: design.map((row, i) => row.reduce((sum, x, k) => sum + x * scale(k) * G.get(k, i), 0)),
    chiSquare: white.reduce((sum, [value]) => sum + value! * value!, 0),
    degreesOfFreedom: n - p,
  };
}

function covarianceOf(given: LeastSquaresOptions["covariance"], n: number): Matrix {
  if (given === undefined) return Matrix.eye(n, n);
  if (given.length !== n || given.some((row) => row.length !== n)) {
    refuse("covariance", `${given.length} rows`, `a ${n} × ${n} matrix`);
  }
  return new Matrix(given.map((row) => [...row]));
}

/**
 * L with V = LLᵀ, row by row.
 *
 * @throws {InputError} at `place`: a matrix that is not symmetric and positive definite
 */
export const choleskyFactorOf = (V: readonly (readonly number[])[], place: string): number[][] =>
  choleskyFactor(new Matrix(V.map((row) => [...row])), place).to2DArray();

function choleskyFactor(V: Matrix, place = "covariance"): Matrix {
  const symmetric = V.to2DArray().every((row, i) => row.every((value, j) => value === V.get(j, i)));
  if (!symmetric) refuse(place, "a matrix that is not symmetric", "a symmetric matrix");
  const cholesky = new CholeskyDecomposition(V);
  if (!cholesky.isPositiveDefinite()) {
    refuse(
      place,
      "a matrix that is not positive definite",
      "a positive definite matrix: give every point an independent uncertainty",
    );
  }
  return cholesky.lowerTriangularMatrix;
}

function weightFactor(weights: readonly number[], n: number): Matrix {
  if (weights.length !== n) refuse("weights", weights.length, `${n} weights, one a point`);
  weights.forEach((w, i) => {
    if (!(w > 0 && w < Infinity)) refuse(`weights.${i}`, w, "a number greater than 0");
  });
  return Matrix.diag(weights.map((w) => 1 / Math.sqrt(w)));
}

/** L⁻¹B. */
function forward(L: Matrix, B: number[][]): number[][] {
  const n = L.rows;
  for (let i = 0; i < n; i++) {
    const row = B[i]!;
    for (let c = 0; c < row.length; c++) {
      for (let j = 0; j < i; j++) row[c] = row[c]! - L.get(i, j) * B[j]![c]!;
      row[c] = row[c]! / L.get(i, i);
    }
  }
  return B;
}

/** R⁻¹B for upper triangular R. */
function backSubstitute(R: Matrix, B: Matrix): Matrix {
  const X = B.clone();
  for (let c = 0; c < X.columns; c++) {
    for (let i = R.rows - 1; i >= 0; i--) {
      for (let j = i + 1; j < R.rows; j++) X.set(i, c, X.get(i, c) - R.get(i, j) * X.get(j, c));
      X.set(i, c, X.get(i, c) / R.get(i, i));
    }
  }
  return X;
}

/** B·L⁻¹. */
function transposedSolve(L: Matrix, B: Matrix): Matrix {
  const X = B.clone();
  for (let r = 0; r < X.rows; r++) {
    for (let i = L.rows - 1; i >= 0; i--) {
      for (let j = i + 1; j < L.rows; j++) X.set(r, i, X.get(r, i) - L.get(j, i) * X.get(r, j));
      X.set(r, i, X.get(r, i) / L.get(i, i));
    }
  }
  return X;
}

/** (RᵀR)⁻¹. */
function gram(R: Matrix): Matrix {
  const inverse = backSubstitute(R, Matrix.eye(R.rows, R.rows));
  return inverse.mmul(inverse.transpose());
}
