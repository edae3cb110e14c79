import type { Finding } from "../../../../viewer/api/selfcheck.ts";
import type { CheckContext } from "../../check.ts";
import { FIVE_ERRORS, near, printed, same, STANDARD_ERRORS, withTheirs } from "../../judge.ts";
import { computed, printedIn, scaled, verdict } from "./source.ts";

/** 9.3, table 6. */
export async function massCalibration(context: CheckContext): Promise<Finding[]> {
  const y = (await context.example("mass-calibration")).measurands["deviation"]!;
  const { linear, monteCarlo, validation, secondOrder } = y;
  const { standardErrors: se, trials } = monteCarlo;
  const unit = "mg";
  const from = { unit, source: printedIn("9.3, table 6") };
  const exact = { unit, source: computed("moments of 1/ρ, quadrature over the densities") };
  const ends = Math.max(...se.symmetric);
  const [low, high] = monteCarlo.intervals.shortest;
  // The place of a shortest interval settles with the cube root of the number of trials: its width is flat there.
  const place = Math.max(...(se.shortest ?? [Number.NaN]));
  const theirPlace = place * Math.cbrt(trials / 720_000);
  const second = secondOrder === null ? Number.NaN : secondOrder.standardUncertainty;
  return [
    printed("mass: estimate", "1.2340", linear.estimate, 0, "", from),
    printed("mass: u, linear", "0.0539", linear.standardUncertainty, 0, "", from),
    printed("mass: 95 % interval, linear", ["1.1285", "1.3395"], linear.interval, 0, "", from),
    printed("mass: u, second order", "0.0750", second, 0, "", from),
    printed(
      "mass: 95 % interval, second order",
      ["1.0870", "1.3810"],
      [linear.estimate - linear.coverageFactor * second, linear.estimate + linear.coverageFactor * second],
      0.0001,
      "k times that of u, which the document rounds first",
      from,
    ),
    near("mass: estimate, Monte Carlo", 1.234, monteCarlo.estimate, STANDARD_ERRORS * se.estimate!, FIVE_ERRORS, exact),
    near(
      "mass: u, Monte Carlo",
      0.0754797399554,
      monteCarlo.standardUncertainty,
      STANDARD_ERRORS * se.standardUncertainty!,
      FIVE_ERRORS,
      exact,
    ),
    printed(
      "mass: u, Monte Carlo, as printed",
      "0.0754",
      monteCarlo.standardUncertainty,
      withTheirs(se.standardUncertainty!, scaled(se.standardUncertainty!, trials, 720_000)),
      "five standard errors of both runs",
      from,
    ),
    near(
      "mass: symmetric 95 % interval",
      [1.08443325975, 1.38356674026],
      monteCarlo.intervals.symmetric,
      STANDARD_ERRORS * ends,
      FIVE_ERRORS,
      exact,
    ),
    near(
      "mass: length of the shortest 95 % interval",
      0.29913348051,
      high - low,
      2 * STANDARD_ERRORS * ends,
      "five standard errors of each end",
      exact,
    ),
    printed(
      "mass: shortest 95 %, as printed",
      ["1.0834", "1.3825"],
      [low, high],
      withTheirs(place, theirPlace),
      "five standard errors of its place in both runs",
      from,
    ),
    same("mass: numerical tolerance δ", 0.005, validation.numericalTolerance, "the same", from),
    near(
      "mass: d_low, d_high",
      [0.04401945, 0.04401945],
      [validation.dLow, validation.dHigh],
      STANDARD_ERRORS * place,
      "five standard errors of the place of the interval",
      exact,
    ),
    same("mass: verdict", "not validated", verdict(y), "the same verdict", { source: printedIn("9.3, table 6") }),
  ];
}
