import { elementary, refuse, type Statement } from "../../../engine/index.ts";
import { figure, millikelvin, type Check } from "../check.ts";
import { limitsStatement, type LimitsDistribution } from "../survey/statement.ts";

/** Usual least immersion in a laboratory bath, mm (common practice). */
export const USUAL_IMMERSION = 300;

/** A probe read at its working depth and again a little withdrawn, against a thermometer that stays. */
export interface Withdrawal {
  /** Depth of the first reading, mm. */
  readonly depth: number;
  /** By how much it was withdrawn, mm (10 mm, or 20 mm, is usual). */
  readonly withdrawn: number;
  /** Reading less that of the thermometer that stays, before and after, K. */
  readonly before: number;
  readonly after: number;
  /** Standard uncertainty of the change, K, where known. */
  readonly standardUncertainty?: number | undefined;
  /** Largest change that is acceptable, K. */
  readonly limit: number;
}

export interface WithdrawalEvaluation {
  /** After − before, K. */
  readonly change: number;
  readonly passed: boolean;
  readonly halfWidth: number;
  readonly checks: readonly Check[];
  readonly reasoning: readonly string[];
}

/**
 * The usual immersion check: withdraw by 10 mm; the reading must not change by more than the contribution allotted. The
 * change itself is then the half-width of a rectangular contribution (common practice).
 *
 * @throws {InputError} depths that do not fit, or a limit that is not greater than 0
 */
export function evaluateWithdrawal(withdrawal: Withdrawal): WithdrawalEvaluation {
  const { depth, withdrawn, before, after, standardUncertainty, limit } = withdrawal;
  if (!(depth > 0)) refuse("immersion.depth", depth, "a depth greater than 0 mm");
  if (!(withdrawn > 0 && withdrawn < depth))
    refuse("immersion.withdrawn", withdrawn, `a length greater than 0 mm and less than the depth, ${depth} mm`);
  if (!(limit > 0)) refuse("immersion.limit", limit, "a change greater than 0 K");
  for (const [name, value] of [
    ["before", before],
    ["after", after],
  ] as const) {
    if (!Number.isFinite(value)) refuse(`immersion.${name}`, value, "a finite temperature difference, K");
  }
  const change = after - before;
  const passed = Math.abs(change) <= limit;
  const checks: Check[] = [
    {
      check: `withdrawn by ${withdrawn} mm, the reading changes by no more than ${millikelvin(limit)} (common practice)`,
      passed,
      found: millikelvin(change),
    },
    depthCheck(depth),
  ];
  if (standardUncertainty !== undefined) {
    checks.push({
      check: "change known well enough to judge: its u below half of the limit (common practice)",
      passed: standardUncertainty <= limit / 2,
      found: `u ${millikelvin(standardUncertainty)}`,
    });
  }
  return {
    change,
    passed,
    halfWidth: Math.abs(change),
    checks,
    reasoning: [
      passed
        ? `the change of ${millikelvin(change)} is taken as half-width of a rectangular contribution`
        : `the change of ${millikelvin(change)} is more than ${millikelvin(limit)}: immerse deeper, or take readings at several depths and fit them`,
      "a change this small still hides a larger error where the conduction length is long: the error itself is change/(exp(h/ℓ) − 1)",
    ],
  };
}

export const depthCheck = (depth: number): Check => ({
  check: `immersion of at least ${USUAL_IMMERSION} mm in a laboratory bath (common practice)`,
  passed: depth >= USUAL_IMMERSION,
  found: `${figure(depth)} mm`,
});

/** The withdrawal as an input quantity. @throws {InputError} no change at all */
export const withdrawalStatement = (
  evaluation: WithdrawalEvaluation,
  { withdrawn, depth }: Withdrawal,
  distribution: LimitsDistribution = "rectangular",
): Statement =>
  limitsStatement(
    distribution,
    0,
    evaluation.halfWidth,
    `withdrawn by ${withdrawn} mm at ${depth} mm depth`,
    "immersion.halfWidth",
  );

/**
 * Error of stem conduction at a depth from the change on withdrawing by h, where the conduction length ℓ is known:
 * change/(exp(h/ℓ) − 1), in the unit of the change. It follows from e(h) = A·exp(−h/ℓ).
 */
export function errorFromWithdrawal(change: number, withdrawn: number, conductionLength: number): number {
  if (!(conductionLength > 0)) refuse("conductionLength", conductionLength, "a length greater than 0 mm");
  return change / elementary.expm1(withdrawn / conductionLength);
}

/**
 * Error and conduction length from two equal withdrawals one after the other: exp(h/ℓ) = second/first,
 * error = first/(second/first − 1).
 *
 * @throws {InputError} a second change that is not larger than the first: no exponential fits
 */
export function errorFromTwoWithdrawals(
  first: number,
  second: number,
  withdrawn: number,
): { readonly error: number; readonly conductionLength: number } {
  const ratio = second / first;
  if (!(ratio > 1 && Number.isFinite(ratio))) {
    refuse(
      "immersion.second",
      second,
      `a change in the same direction as the first and larger than it (${first}): the reading falls off faster the shallower`,
    );
  }
  return { error: first / (ratio - 1), conductionLength: withdrawn / elementary.ln(ratio) };
}
