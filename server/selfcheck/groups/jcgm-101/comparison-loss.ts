import type { Check } from "../../check.ts";
import { FIVE_ERRORS, near, printed, same, STANDARD_ERRORS, withTheirs } from "../../judge.ts";
import { computed, printedIn, scaled, THEIR_TRIALS, verdict } from "./source.ts";

/** 9.4, in 10⁻⁶. Shortest intervals from the exact distribution function; its printed ends are single runs. */
export const COMPARISON_LOSS = [
  {
    id: "00",
    x: "0",
    clause: "9.4.2",
    u: 50,
    mean: 50,
    shortest: [0, 149.78661],
    linear: 0,
    printedU: "50",
    ends: ["0", "150"],
  },
  {
    id: "10",
    x: "0.010",
    clause: "9.4.2",
    u: 111.803398875,
    mean: 150,
    shortest: [0, 366.00529],
    linear: 100,
    printedU: "112",
    ends: ["0", "367"],
  },
  {
    id: "50",
    x: "0.050",
    clause: "9.4.2",
    u: 502.493781056,
    mean: 2550,
    shortest: [1593.5697, 3548.5698],
    linear: 500,
    printedU: "502",
    ends: ["1590", "3543"],
  },
  {
    id: "00-correlated",
    x: "0",
    clause: "9.4.3",
    u: 67.2681202354,
    mean: 50,
    shortest: [0, 185.05646],
    linear: 0,
    printedU: "67",
    ends: ["0", "185"],
  },
  {
    id: "10-correlated",
    x: "0.010",
    clause: "9.4.3",
    u: 120.519707932,
    mean: 150,
    shortest: [12.65156, 397.47878],
    linear: 100,
    printedU: "121",
    ends: ["13", "398"],
  },
  {
    id: "50-correlated",
    x: "0.050",
    clause: "9.4.3",
    u: 504.504707609,
    mean: 2550,
    shortest: [1624.4186, 3554.6825],
    linear: 500,
    printedU: "504",
    ends: ["1628", "3555"],
  },
] as const;

/** One row of 9.4. */
export function comparisonLoss(row: (typeof COMPARISON_LOSS)[number]): Check {
  const correlated = row.id.endsWith("correlated");
  const name = `loss at x₁ = ${row.x}${correlated ? ", r = 0.9" : ""}`;
  return {
    title: `9.4, ${name}`,
    source: printedIn(row.clause),
    async lines(context) {
      const y = (await context.example(`comparison-loss-${row.id}`)).measurands["loss"]!;
      const { linear, monteCarlo, secondOrder } = y;
      const { standardErrors: se, trials } = monteCarlo;
      const million = (value: number | null): number => 1e6 * (value ?? Number.NaN);
      const unit = "10⁻⁶";
      const moments = { unit, source: computed("mean x₁² + 2u², variance 4u²x₁² + 4u⁴(1 + r²)") };
      const exact = {
        unit,
        source: computed(
          correlated
            ? "quadrature of the bivariate normal over the circle"
            : "non-central χ² with two degrees of freedom",
        ),
      };
      const u = million(se.standardUncertainty);
      const places = (se.shortest ?? [null, null]).map(million);
      const place = Math.max(...places);
      const shortest = monteCarlo.intervals.shortest.map(million);
      return [
        near(
          `${name}: u = 2|x₁|u(x₁), linear`,
          row.linear,
          million(linear.standardUncertainty),
          1e-6 * Math.max(1, row.linear),
          "derivatives to 10⁻⁶",
          { unit },
        ),
        near(
          `${name}: mean`,
          row.mean,
          million(monteCarlo.estimate),
          STANDARD_ERRORS * million(se.estimate),
          FIVE_ERRORS,
          moments,
        ),
        near(
          `${name}: u, Monte Carlo`,
          row.u,
          million(monteCarlo.standardUncertainty),
          STANDARD_ERRORS * u,
          FIVE_ERRORS,
          moments,
        ),
        printed(
          `${name}: u, as printed`,
          row.printedU,
          million(monteCarlo.standardUncertainty),
          withTheirs(u, scaled(u, trials)),
          "five standard errors of both runs",
          { unit },
        ),
        near(
          `${name}: shortest 95 % interval`,
          row.shortest,
          shortest,
          STANDARD_ERRORS * place,
          "five standard errors of its place",
          exact,
        ),
        printed(
          `${name}: shortest 95 %, as printed`,
          row.ends,
          shortest,
          withTheirs(place, place * Math.cbrt(trials / THEIR_TRIALS)),
          "five standard errors of its place in both runs",
          { unit },
        ),
        ...(correlated
          ? []
          : [
              near(
                `${name}: u = √(u² + 4u⁴), second order`,
                Math.sqrt(row.linear * row.linear + 2500),
                million(secondOrder?.standardUncertainty ?? null),
                1e-4,
                "second derivatives to 10⁻⁶",
                moments,
              ),
            ]),
        same(`${name}: verdict`, "not validated", verdict(y), "the same verdict"),
      ];
    },
  };
}
