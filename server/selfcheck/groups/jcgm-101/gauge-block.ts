import type { Finding } from "../../../../viewer/api/selfcheck.ts";
import type { CheckContext } from "../../check.ts";
import { FIVE_ERRORS, near, printed, same, STANDARD_ERRORS, withTheirs } from "../../judge.ts";
import { computed, printedIn, scaled, verdict } from "./source.ts";

/** 9.5, table 11. */
export async function gaugeBlock(context: CheckContext): Promise<Finding[]> {
  const y = (await context.example("gauge-block")).measurands["deviation"]!;
  const { linear, monteCarlo, validation } = y;
  const { standardErrors: se, trials } = monteCarlo;
  const unit = "nm";
  const from = { unit, source: `${printedIn("9.5, table 11")}; the same in Metrology 2022, 2(1), 33–45` };
  const exact = { unit, source: computed("characteristic functions of the inputs") };
  const end = Math.max(...se.symmetric);
  return [
    printed("gauge block: estimate", "838", linear.estimate, 0, "", from),
    printed("gauge block: u, linear", "32", linear.standardUncertainty, 0, "", from),
    near(
      "gauge block: estimate, Monte Carlo",
      838,
      monteCarlo.estimate,
      STANDARD_ERRORS * se.estimate!,
      FIVE_ERRORS,
      exact,
    ),
    near(
      "gauge block: u, Monte Carlo",
      35.808079,
      monteCarlo.standardUncertainty,
      STANDARD_ERRORS * se.standardUncertainty!,
      FIVE_ERRORS,
      exact,
    ),
    printed(
      "gauge block: u, as printed",
      "36",
      monteCarlo.standardUncertainty,
      withTheirs(se.standardUncertainty!, scaled(se.standardUncertainty!, trials)),
      "five standard errors of both runs",
      from,
    ),
    near(
      "gauge block: 99 % interval",
      [744.348, 931.652],
      monteCarlo.intervals.symmetric,
      STANDARD_ERRORS * end,
      FIVE_ERRORS,
      exact,
    ),
    printed(
      "gauge block: 99 % interval, as printed",
      ["745", "932"],
      monteCarlo.intervals.symmetric,
      withTheirs(end, scaled(end, trials)),
      "five standard errors of both runs",
      from,
    ),
    same("gauge block: numerical tolerance δ", 0.5, validation.numericalTolerance, "the same", from),
    same("gauge block: verdict", "not validated", verdict(y), "the same verdict", {
      source: "follows from the exact interval: d_low = 10.8 nm, δ = 0.5 nm",
    }),
  ];
}
