import { type Statement } from "../../../engine/index.ts";
import { readStatement } from "../../../engine/internal.ts";
import type { Finding } from "../../../viewer/api/selfcheck.ts";
import type { Check, CheckContext, CheckGroup } from "../check.ts";
import { FIVE_ERRORS, near, printed, same, STANDARD_ERRORS } from "../judge.ts";

/**
 * The worked examples of the GUM, annex H, and of EA-4/02, in which one term dominates. Unrounded figures were computed independently from their inputs.
 */
export const jcgm100: CheckGroup = {
  id: "jcgm-100",
  title: "Worked examples of JCGM 100:2008, annex H, and EA-4/02, S11",
  checks: (): readonly Check[] => [
    { title: "H.1, end gauge", source: "JCGM 100:2008, H.1, table H.1", lines: endGauge },
    { title: "H.2, impedance", source: "JCGM 100:2008, H.2, tables H.2 to H.4", lines: impedance },
    { title: "H.3, thermometer line", source: "JCGM 100:2008, H.3, table H.6", lines: thermometerLine },
    {
      title: "S11, block calibrator",
      source: "EA-4/02 M:2022, supplement 2, S11, figures at second hand",
      lines: blockCalibrator,
    },
  ],
};

/** Table H.1: |c|·u(x) in nm. */
export const END_GAUGE: readonly (readonly [input: string, meaning: string, printed: string])[] = [
  ["standardLength", "length of the standard", "25"],
  ["difference", "repeated observations", "5.8"],
  ["comparatorRandom", "random effects of the comparator", "3.9"],
  ["comparatorSystematic", "systematic effects of the comparator", "6.7"],
  ["standardExpansion", "expansion of the standard", "0"],
  ["meanTemperature", "mean temperature of the bed", "0"],
  ["cycling", "cyclic variation of the room", "0"],
  ["expansionDifference", "difference of the expansions", "2.9"],
  ["temperatureDifference", "difference of the temperatures", "16.6"],
];

async function endGauge(context: CheckContext): Promise<Finding[]> {
  const { linear, secondOrder } = (await context.example("end-gauge")).measurands["length"]!;
  const unit = "nm";
  const contribution = (input: string): number =>
    Math.abs(linear.contributions.find((row) => row.input === input)?.contribution ?? Number.NaN);
  return [
    printed("end gauge: estimate", "50000838", linear.estimate, 0, "", { unit }),
    ...END_GAUGE.map(([input, meaning, figure]) =>
      printed(`end gauge: ${meaning}`, figure, contribution(input), 0, "", { unit }),
    ),
    printed("end gauge: combined standard uncertainty", "32", linear.standardUncertainty, 0, "", { unit }),
    printed(
      "end gauge: ν_eff",
      "16.7",
      linear.effectiveDegreesOfFreedom,
      0.05,
      "0.05 since the document rounds the contributions first",
    ),
    printed("end gauge: k = t₉₉(16)", "2.92", linear.coverageFactor),
    near("end gauge: k = t₉₉(16), unrounded", 2.92078162243, linear.coverageFactor, 1e-9, "figures given", {
      source: "computed independently: quantile of t",
    }),
    printed(
      "end gauge: U at 99 %",
      "93",
      linear.expandedUncertainty,
      0.5,
      "as much since the document rounds u first",
      { unit },
    ),
    printed("end gauge: u with second-order terms", "34", secondOrder?.standardUncertainty ?? null, 0, "", {
      unit,
      source: "JCGM 100:2008, H.1.7",
    }),
  ];
}

async function impedance(context: CheckContext): Promise<Finding[]> {
  const { measurands, joint } = await context.example("impedance");
  const unit = "Ω";
  const source = "computed independently: the five sets of readings, analytic derivatives";
  const { correlation } = joint!.linear;
  const r = [correlation[0]![1]!, correlation[0]![2]!, correlation[1]![2]!];
  const rows = [
    { name: "resistance", y: "127.732", u: "0.071", exact: [127.732169928, 0.071071407397] },
    { name: "reactance", y: "219.847", u: "0.295", exact: [219.846511913, 0.295581677359] },
    { name: "impedance", y: "254.260", u: "0.236", exact: [254.259701948, 0.236336130082] },
  ] as const;
  return [
    ...rows.flatMap(({ name, y, u, exact }) => {
      const { linear } = measurands[name]!;
      return [
        printed(`impedance: ${name}`, y, linear.estimate, 0, "", { unit }),
        printed(
          `impedance: u of the ${name}`,
          u,
          linear.standardUncertainty,
          0.0005,
          "as much: the document's two approaches differ in this digit",
          { unit },
        ),
        near(
          `impedance: ${name} and its u, unrounded`,
          exact,
          [linear.estimate, linear.standardUncertainty],
          1e-8,
          "figures given, derivatives to 10⁻⁹",
          { unit, source },
        ),
      ];
    }),
    printed("impedance: r(R, X), r(R, Z), r(X, Z)", ["-0.588", "-0.485", "0.993"], r),
    near(
      "impedance: correlations, unrounded",
      [-0.588429784424, -0.48525922421, 0.992511648949],
      r,
      1e-8,
      "figures given, derivatives to 10⁻⁹",
      { source },
    ),
  ];
}

async function thermometerLine(context: CheckContext): Promise<Finding[]> {
  const { measurands, joint } = await context.example("thermometer-line");
  const unit = "°C";
  const source = "computed independently: normal equations";
  const rows = [
    { name: "intercept", what: "y₁", y: "-0.1712", u: "0.0029", exact: [-0.171203790131, 0.00287759783516], unit },
    { name: "slope", what: "y₂", y: "0.00218", u: "0.00067", exact: [0.00218269773989, 0.000667938773228], unit: "" },
    {
      name: "prediction",
      what: "b(30 °C)",
      y: "-0.1494",
      u: "0.0041",
      exact: [-0.149376812732, 0.00413859575285],
      unit,
    },
  ] as const;
  const r = joint!.linear.correlation[0]![1]!;
  return [
    ...rows.flatMap((row) => {
      const { linear, monteCarlo } = measurands[row.name]!;
      const where = { unit: row.unit };
      return [
        printed(`thermometer: ${row.what}`, row.y, linear.estimate, 0, "", where),
        printed(`thermometer: u of ${row.what}`, row.u, linear.standardUncertainty, 0, "", where),
        near(
          `thermometer: ${row.what} and its u, unrounded`,
          row.exact,
          [linear.estimate, linear.standardUncertainty],
          1e-10,
          "figures given",
          { ...where, source },
        ),
        near(
          `thermometer: u of ${row.what}, Monte Carlo`,
          row.exact[1],
          monteCarlo.standardUncertainty,
          STANDARD_ERRORS * monteCarlo.standardErrors.standardUncertainty!,
          FIVE_ERRORS,
          { ...where, source },
        ),
      ];
    }),
    printed("thermometer: r(y₁, y₂)", "-0.930", r),
    near("thermometer: r(y₁, y₂), unrounded", -0.930429603093, r, 1e-8, "figures given", { source }),
  ];
}

async function blockCalibrator(context: CheckContext): Promise<Finding[]> {
  const { linear, monteCarlo, validation } = (await context.example("block-calibrator")).measurands["temperature"]!;
  const [low, high] = monteCarlo.intervals.symmetric;
  const end = Math.max(...monteCarlo.standardErrors.symmetric);
  const u = 164.291407769;
  const unit = "mK";
  const source = "computed independently: characteristic function of the sum";
  const needed = validation.coverageFactorNeeded;
  // Axial ±250 mK and radial ±100 mK alone.
  const { distribution } = readStatement(
    { distribution: "trapezoidal", estimate: 0, halfWidth: 350, topRatio: 150 / 350 } as Statement,
    "selfcheck",
  );
  const trapezoid = distribution.quantile((1 + 0.9545) / 2) / distribution.standardDeviation!;
  return [
    printed("block calibrator: u", "164", 1000 * linear.standardUncertainty, 0, "", { unit }),
    near("block calibrator: u, unrounded", u, 1000 * linear.standardUncertainty, 1e-6, "figures given", {
      unit,
      source: "computed independently: root sum of squares",
    }),
    near(
      "block calibrator: half-width at 95.45 %",
      305.190759804,
      500 * (high - low),
      STANDARD_ERRORS * 1000 * end,
      FIVE_ERRORS,
      {
        unit,
        source,
      },
    ),
    near(
      "block calibrator: k that 95.45 % takes",
      1.85761850816,
      needed,
      (STANDARD_ERRORS * 1000 * end) / u,
      FIVE_ERRORS,
      { source },
    ),
    printed(
      "block calibrator: k of a trapezoid of its two largest terms",
      "1.81",
      trapezoid,
      0.005,
      "as much: the figure is quoted at second hand, and the trapezoid has 1.80 at 95 % and 1.82 at 95.45 %",
    ),
    near("block calibrator: k of that trapezoid, unrounded", 1.81752865779, trapezoid, 1e-9, "figures given", {
      source: "computed independently: (1 − √((1 − p)(1 − β²)))/√((1 + β²)/6), β = 150/350, p = 95.45 %",
    }),
    same(
      "block calibrator: verdict on k = 2",
      "not validated",
      validation.validated ? "validated" : "not validated",
      "the same verdict",
      {
        source: "follows from the exact half-width: 329 mK against 305 mK",
      },
    ),
  ];
}
