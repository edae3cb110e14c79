import type { MeasurandRecord } from "../../../engine/index.ts";
import type { Finding } from "../../../viewer/api/selfcheck.ts";
import type { Check, CheckContext, CheckGroup } from "../check.ts";
import { between, FIVE_ERRORS, near, printed, same, STANDARD_ERRORS, withTheirs } from "../judge.ts";

/**
 * The worked examples of JCGM 101:2008, clause 9, as examples/published states them. Closed forms and exact distribution functions were computed independently of this program.
 */
export const jcgm101: CheckGroup = {
  id: "jcgm-101",
  title: "Worked examples of JCGM 101:2008, clause 9",
  checks: (quick) => [
    ...ADDITIVE.map(additive),
    ...(quick ? [] : ADAPTIVE.map(adaptive)),
    { title: "9.3, mass calibration", source: "JCGM 101:2008, 9.3, tables 5 and 6", lines: massCalibration },
    ...COMPARISON_LOSS.map(comparisonLoss),
    { title: "9.5, gauge block", source: "JCGM 101:2008, 9.5, tables 10 and 11", lines: gaugeBlock },
  ],
};

const printedIn = (clause: string): string => `JCGM 101:2008, ${clause}`;
const computed = (how: string): string => `computed independently: ${how}`;
const verdict = ({ validation }: MeasurandRecord): string => (validation.validated ? "validated" : "not validated");
/** Trials of the runs that the document prints. */
const THEIR_TRIALS = 1_000_000;

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

function additive(row: (typeof ADDITIVE)[number]): Check {
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

/** Standard error at the document's number of trials of a figure that settles with their square root. */
const scaled = (error: number, trials: number, theirs = THEIR_TRIALS): number => error * Math.sqrt(trials / theirs);

/** 7.9.4: trials that the adaptive procedure makes, as tables 2 to 4 print them. */
const ADAPTIVE = [
  { id: "additive-normal", clause: "9.2.2, table 2", count: 1_230_000, bounds: [615_000, 2_460_000] },
  { id: "additive-rectangular", clause: "9.2.3, table 3", count: 1_020_000, bounds: [510_000, 2_040_000] },
  { id: "additive-one-dominant", clause: "9.2.4, table 4", count: 30_000, bounds: [20_000, 150_000] },
] as const;

function adaptive({ id, clause, count, bounds }: (typeof ADAPTIVE)[number]): Check {
  return {
    title: `7.9.4, adaptive procedure, ${id}`,
    source: printedIn(clause),
    async lines(context) {
      const record = await context.example(id, { trials: "adaptive" });
      const { settling } = record.measurands["y"]!.monteCarlo;
      const greatest = Math.max(...Object.values(settling.doubled).map((value) => value ?? Number.NaN));
      const basis =
        id === "additive-one-dominant"
          ? "the count is random; as eight seeds of another program spread"
          : "the count is random; half to twice";
      return [
        between(`${id}: trials of the adaptive procedure`, count, record.trials.count, bounds, basis),
        near(`${id}: 2s of the least settled figure when it stops`, 0, greatest, settling.limit, "δ/5 (8.2)", {
          source: "JCGM 101:2008, 7.9.4 and 8.2",
        }),
      ];
    },
  };
}

async function massCalibration(context: CheckContext): Promise<Finding[]> {
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

/** 9.4, in 10⁻⁶. Shortest intervals from the exact distribution function; its printed ends are single runs. */
const COMPARISON_LOSS = [
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

function comparisonLoss(row: (typeof COMPARISON_LOSS)[number]): Check {
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

async function gaugeBlock(context: CheckContext): Promise<Finding[]> {
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
