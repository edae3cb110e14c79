import type { Check } from "../../check.ts";
import { FIVE_ERRORS, near, printed, same, STANDARD_ERRORS, withTheirs } from "../../judge.ts";
import { computed, printedIn, scaled, verdict } from "./source.ts";

/** 9.2: four inputs added. Exact half-widths from the distribution function of the sum. */
export const ADDITIVE = [
  {
    id: "additive-normal",
    clause: "9.2.2, table 2",
    exact: "N(0, 4)",
    u: 2,
    half: 3.919927969,
    d: 0,
    printedU: "2.00",
    printedLinear: "3.92",
    printedHalf: "3.92",
    tolerance: 0.05,
    verdict: "validated",
  },
  {
    id: "additive-rectangular",
    clause: "9.2.3, table 3",
    exact: "2√3·(2 − (3/5)^¼)",
    u: 2,
    half: 3.87940674135,
    d: 0.0405212277,
    printedU: "2.00",
    printedLinear: "3.92",
    printedHalf: "3.88",
    tolerance: 0.05,
    verdict: "validated",
  },
  {
    id: "additive-one-dominant",
    clause: "9.2.4, table 4",
    exact: "distribution function of the sum",
    u: 10.1488915651,
    half: 17.0158140999,
    d: 2.8756478501,
    printedU: "10.1",
    printedLinear: "19.9",
    printedHalf: "17.0",
    tolerance: 0.5,
    verdict: "not validated",
  },
] as const;

/** The additive model with the inputs of one table. */
export function additive(row: (typeof ADDITIVE)[number]): Check {
  // d lies 0.0095 from δ: only many trials show on which side of it.
  const close = row.id === "additive-rectangular";
  return {
    title: `9.2, ${row.id}`,
    source: printedIn(row.clause),
    async lines(context) {
      const { measurands } = await context.example(row.id, close && !context.quick ? { trials: 5_000_000 } : {});
      const y = measurands["y"]!;
      const { linear, monteCarlo, validation } = y;
      const { standardErrors: se, trials } = monteCarlo;
      const [low, high] = monteCarlo.intervals.symmetric;
      const exact = { source: computed(row.exact) };
      const end = Math.max(...se.symmetric);
      const five = STANDARD_ERRORS * end;
      return [
        printed(`${row.id}: u(y), linear`, row.printedU, linear.standardUncertainty),
        printed(`${row.id}: 95 % interval, linear`, [`-${row.printedLinear}`, row.printedLinear], linear.interval),
        near(
          `${row.id}: estimate, Monte Carlo`,
          0,
          monteCarlo.estimate,
          STANDARD_ERRORS * se.estimate!,
          FIVE_ERRORS,
          exact,
        ),
        near(
          `${row.id}: u(y), Monte Carlo`,
          row.u,
          monteCarlo.standardUncertainty,
          STANDARD_ERRORS * se.standardUncertainty!,
          FIVE_ERRORS,
          exact,
        ),
        near(`${row.id}: 95 % interval, Monte Carlo`, [-row.half, row.half], [low, high], five, FIVE_ERRORS, exact),
        printed(
          `${row.id}: 95 % interval, as printed`,
          [`-${row.printedHalf}`, row.printedHalf],
          [low, high],
          withTheirs(end, scaled(end, trials)),
          "five standard errors of both runs",
        ),
        same(`${row.id}: numerical tolerance δ`, row.tolerance, validation.numericalTolerance),
        near(`${row.id}: d_low, d_high`, [row.d, row.d], [validation.dLow, validation.dHigh], five, FIVE_ERRORS, exact),
        ...(close && context.quick ? [] : [same(`${row.id}: verdict`, row.verdict, verdict(y), "the same verdict")]),
      ];
    },
  };
}
