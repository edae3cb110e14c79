import { InputError, type Problem } from "../errors.ts";
import type { Matrix } from "../numerics/matrix.ts";
import { symmetricEigen } from "../numerics/symmetric-eigen.ts";
import { nearestCorrelation } from "./nearest-correlation.ts";

/** Eigenvalues above this are taken as zero with rounding errors. */
const ROUNDING = -1e-10;

/**
 * Refuses a matrix that no set of quantities can have. The message gives its smallest eigenvalue and the nearest valid
 * matrix.
 *
 * @throws {InputError} placed at `correlations`
 */
export function requirePositiveSemiDefinite(matrix: Matrix, names: readonly string[]): void {
  const least = symmetricEigen(matrix).values[0]!;
  if (least >= ROUNDING) return;
  const nearest = nearestCorrelation(matrix);
  const pairs = names.flatMap((a, i) =>
    names.slice(i + 1).map((b, j) => `${a}–${b} ${nearest[i]![i + 1 + j]!.toFixed(4)}`),
  );
  const problem: Problem = {
    place: "correlations",
    value: `coefficients between ${names.join(", ")} that contradict one another (smallest eigenvalue ${least.toPrecision(3)})`,
    accepted: `a positive semi-definite matrix; the nearest is ${pairs.join(", ")}`,
  };
  throw new InputError([problem]);
}
