import { elementary, refuse, type Statement } from "../../../engine/index.ts";
import { figure, millikelvin, type Check } from "../check.ts";
import { limitsStatement, type LimitsDistribution } from "../survey/statement.ts";

/** Usual least immersion in a laboratory bath, mm (common practice). */
export const USUAL_IMMERSION = 300;

/** Decay lengths that stems of laboratory probes usually have in a stirred liquid, mm (common practice). */
export const USUAL_CONDUCTION_LENGTHS: readonly [shortest: number, longest: number] = [15, 60];

/** A probe read at its working depth and again a little withdrawn, against a thermometer that stays. */
export interface Withdrawal {
  /** Depth of the first reading, mm. */
  readonly depth: number;
  /** By how much it was withdrawn, mm (10 mm, or 20 mm, is usual). */
  readonly withdrawn: number;
  /** Reading less that of the thermometer that stays, before and after, K. */
  readonly before: number;
  readonly after: number;
  /** The same, withdrawn once more by the same length, if that was read. */
  readonly again?: number | undefined;
  /** Decay length of the stem's conduction, mm, if it is known, and its standard uncertainty. */
  readonly conductionLength?: number | undefined;
  readonly conductionLengthUncertainty?: number | undefined;
  /** Standard uncertainty of the change, K, if known. */
  readonly standardUncertainty?: number | undefined;
  /** Largest error that is acceptable, K. */
  readonly limit: number;
}

/**
 * What one withdrawal found: the error of the reading at the first depth by stem conduction, K, whether it is
 * acceptable, and the half-width, K, that a budget states.
 */
export interface WithdrawalEvaluation {
  /** After − before, K. */
  readonly change: number;
  /** Error of the reading at the first depth, K: change/(exp(h/ℓ) − 1). */
  readonly error: number;
  /** ℓ that the error was taken with, mm, and where it comes from. */
  readonly conductionLength: number;
  readonly lengthFrom: "stated" | "second withdrawal" | "longest usual";
  /** Of the error, K; `null` if that of the change is not known. */
  readonly standardUncertainty: number | null;
  readonly passed: boolean;
  /** |error|, and twice its standard uncertainty if that is known. */
  readonly halfWidth: number;
  readonly checks: readonly Check[];
  readonly reasoning: readonly string[];
}

/**
 * The usual immersion check: withdraw by h and observe the change of the reading. The change is not the error: with
 * e(L) = A·exp(−L/ℓ) it is e·(exp(h/ℓ) − 1), a half of the error for h = 10 mm and ℓ = 25 mm, a fifth for 60 mm. So ℓ
 * is taken as stated, from a second withdrawal, or else as the longest usual one, which bounds the error from above.
 *
 * @throws {InputError} depths that do not fit, a limit that is not greater than 0, a length stated beside a second withdrawal,
 *   or a second change that is not larger than the first
 */
export function evaluateWithdrawal(withdrawal: Withdrawal): WithdrawalEvaluation {
  const { depth, withdrawn, before, after, standardUncertainty, limit } = withdrawal;
  checkWithdrawal(withdrawal);
  const change = after - before;
  const found = errorOf(withdrawal, change);
  const halfWidth = Math.abs(found.error) + 2 * (found.standardUncertainty ?? 0);
  const passed = halfWidth <= limit;
  const checks: Check[] = [
    {
      check: `error of stem conduction at ${figure(depth)} mm, with twice its u, no more than ${millikelvin(limit)}`,
      passed,
      found: `${millikelvin(found.error)}${found.standardUncertainty === null ? "" : `, u ${millikelvin(found.standardUncertainty)}`}`,
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
    ...found,
    passed,
    halfWidth,
    checks,
    reasoning: [
      `withdrawn by ${withdrawn} mm, the reading changes by ${millikelvin(change)}: with a decay length of ${figure(found.conductionLength)} mm ` +
        `(${LENGTHS[found.lengthFrom]}) the error at ${figure(depth)} mm is ${millikelvin(found.error)}, change/(exp(h/ℓ) − 1)`,
      ...(found.lengthFrom === "longest usual"
        ? [
            "a second withdrawal by the same length, or the decay length itself, would state the error and not a bound of it",
          ]
        : []),
      found.standardUncertainty === null
        ? "the uncertainty of the change is not stated and not part of the half-width"
        : `the half-width ${millikelvin(halfWidth)} is the error and twice its standard uncertainty, ${millikelvin(found.standardUncertainty)}`,
      ...(passed ? [] : ["immerse deeper, or take readings at several depths and fit them"]),
    ],
  };
}

const LENGTHS: Readonly<Record<WithdrawalEvaluation["lengthFrom"], string>> = {
  stated: "as stated",
  "second withdrawal": "from the second withdrawal",
  "longest usual": `not known; the longest of the usual ${USUAL_CONDUCTION_LENGTHS.join(" mm to ")} mm, so that the error is an upper bound`,
};

function checkWithdrawal(withdrawal: Withdrawal): void {
  const { depth, withdrawn, limit, again, conductionLength } = withdrawal;
  if (!(depth > 0)) refuse("immersion.depth", depth, "a depth greater than 0 mm");
  const times = again === undefined ? 1 : 2;
  if (!(withdrawn > 0 && times * withdrawn < depth))
    refuse(
      "immersion.withdrawn",
      withdrawn,
      `a length greater than 0 mm, and ${times === 1 ? "" : "twice that "}less than the depth, ${depth} mm`,
    );
  if (!(limit > 0)) refuse("immersion.limit", limit, "an error greater than 0 K");
  for (const name of ["before", "after", "again"] as const) {
    const value = withdrawal[name];
    if (value !== undefined && !Number.isFinite(value))
      refuse(`immersion.${name}`, value, "a finite temperature difference, K");
  }
  if (again !== undefined && conductionLength !== undefined)
    refuse("immersion.conductionLength", conductionLength, "nothing beside a second withdrawal, which gives it");
}

type ErrorOfStem = Pick<WithdrawalEvaluation, "error" | "conductionLength" | "lengthFrom" | "standardUncertainty">;

function errorOf(
  { withdrawn, after, again, conductionLength, conductionLengthUncertainty = 0, standardUncertainty: u }: Withdrawal,
  change: number,
): ErrorOfStem {
  if (again !== undefined) {
    const second = again - after;
    // The same reading before and after a withdrawal is no change, and needs no exponential.
    if (change === 0 && second === 0)
      return atLength(change, withdrawn, USUAL_CONDUCTION_LENGTHS[1], 0, u, "longest usual");
    const found = errorFromTwoWithdrawals(change, second, withdrawn);
    return {
      ...found,
      lengthFrom: "second withdrawal",
      standardUncertainty: u === undefined ? null : u * spreadOfTwo(change, second),
    };
  }
  if (conductionLength !== undefined)
    return atLength(change, withdrawn, conductionLength, conductionLengthUncertainty, u, "stated");
  return atLength(change, withdrawn, USUAL_CONDUCTION_LENGTHS[1], 0, u, "longest usual");
}

/** The error at a given ℓ; u² = (u(change)/(exp(x) − 1))² + (change·exp(x)·x/(ℓ·(exp(x) − 1)²)·u(ℓ))², x = h/ℓ. */
function atLength(
  change: number,
  withdrawn: number,
  length: number,
  lengthUncertainty: number,
  u: number | undefined,
  lengthFrom: ErrorOfStem["lengthFrom"],
): ErrorOfStem {
  const error = errorFromWithdrawal(change, withdrawn, length);
  const x = withdrawn / length;
  const growth = elementary.expm1(x);
  const byLength = ((Math.abs(change) * (growth + 1) * x) / (length * growth * growth)) * lengthUncertainty;
  const byChange = (u ?? 0) / growth;
  return {
    error,
    conductionLength: length,
    lengthFrom,
    standardUncertainty:
      u === undefined && lengthUncertainty === 0 ? null : Math.sqrt(byChange * byChange + byLength * byLength),
  };
}

/**
 * u(error) per u(change) for two withdrawals: error = f²/(s − f) of the changes f = r₁ − r₀ and s = r₂ − r₁. The three
 * readings are independent, each with u(change)/√2; the middle one is in both changes.
 */
function spreadOfTwo(first: number, second: number): number {
  const gap = second - first;
  const byFirst = (first * (2 * second - first)) / (gap * gap);
  const bySecond = -(first * first) / (gap * gap);
  const middle = byFirst - bySecond;
  return Math.sqrt((byFirst * byFirst + middle * middle + bySecond * bySecond) / 2);
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
    `withdrawn by ${withdrawn} mm at ${depth} mm depth, decay length ${figure(evaluation.conductionLength)} mm (${evaluation.lengthFrom})`,
    "immersion.halfWidth",
  );

/**
 * Error of stem conduction at a depth from the change on withdrawing by h, if the conduction length ℓ is known:
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
