import { elementary, type MeasurandRecord, type Statement, type StudyDocument } from "../../../engine/index.ts";
import { readStatement } from "../../../engine/internal.ts";
import type { Finding } from "../../../viewer/api/selfcheck.ts";
import type { Check, CheckContext, CheckGroup } from "../check.ts";
import { FIVE_ERRORS, near, printed, STANDARD_ERRORS } from "../judge.ts";

/** Distributions whose figures have a closed form, by their functions and by trials. */
export const closedForms: CheckGroup = {
  id: "closed-forms",
  title: "Closed forms: quantiles, sums, known distributions",
  checks: (quick) => [
    {
      title: "quantiles of t",
      source: "JCGM 100:2008, table G.2, as NIST Technical Note 1297, table B.1, prints it",
      lines: () => tFactors(quick ? [1, 2, 5, 10, 20, 50] : T_FACTORS.map(([ν]) => ν)),
    },
    {
      title: "quantiles of the normal",
      source: "JCGM 100:2008, table G.1; last row of table G.2",
      lines: normalFactors,
    },
    {
      title: "half-widths of table 1",
      source: "JCGM 101:2008, 6.4 and table 1; computed independently: closed-form quantiles",
      lines: halfWidths,
    },
    {
      title: "sums of rectangulars",
      source: "computed independently: distribution function of the sum (Irwin–Hall)",
      lines: sumsOfRectangulars,
    },
    { title: "an arcsine input", source: "JCGM 101:2008, 6.4.6: u = a/√2, half-width a·sin(πp/2)", lines: arcsine },
    {
      title: "χ² of the comparison loss",
      source: "JCGM 101:2008, 9.4, at x₁ = 0: an exponential distribution, quantiles −2u² ln(1 − p)",
      lines: chiSquare,
    },
    {
      title: "second order of the mass calibration",
      source: "JCGM 100:2008, 5.1.2, note; computed independently: u² + (m/ρ²)²u²(a)u²(ρ), for both densities",
      lines: secondOrderMass,
    },
    { title: "elementary functions", source: "computed independently: mpmath at 60 digits", lines: functions },
  ],
};

/** Those called 68.27, 95.45 and 99.73 % are what k = 1, 2 and 3 hold of a normal. */
const PROBABILITIES = [0.6826894921370859, 0.9, 0.95, 0.9544997361036416, 0.99, 0.9973002039367398] as const;

/** ν, then t at 68.27, 90, 95, 95.45, 99 and 99.73 %; 1.69 at ν = 35 stands for a misprint, 1.70. */
export const T_FACTORS: readonly (readonly [ν: number, ...printed: string[]])[] = [
  [1, "1.84", "6.31", "12.71", "13.97", "63.66", "235.80"],
  [2, "1.32", "2.92", "4.30", "4.53", "9.92", "19.21"],
  [3, "1.20", "2.35", "3.18", "3.31", "5.84", "9.22"],
  [4, "1.14", "2.13", "2.78", "2.87", "4.60", "6.62"],
  [5, "1.11", "2.02", "2.57", "2.65", "4.03", "5.51"],
  [6, "1.09", "1.94", "2.45", "2.52", "3.71", "4.90"],
  [7, "1.08", "1.89", "2.36", "2.43", "3.50", "4.53"],
  [8, "1.07", "1.86", "2.31", "2.37", "3.36", "4.28"],
  [9, "1.06", "1.83", "2.26", "2.32", "3.25", "4.09"],
  [10, "1.05", "1.81", "2.23", "2.28", "3.17", "3.96"],
  [11, "1.05", "1.80", "2.20", "2.25", "3.11", "3.85"],
  [12, "1.04", "1.78", "2.18", "2.23", "3.05", "3.76"],
  [13, "1.04", "1.77", "2.16", "2.21", "3.01", "3.69"],
  [14, "1.04", "1.76", "2.14", "2.20", "2.98", "3.64"],
  [15, "1.03", "1.75", "2.13", "2.18", "2.95", "3.59"],
  [16, "1.03", "1.75", "2.12", "2.17", "2.92", "3.54"],
  [17, "1.03", "1.74", "2.11", "2.16", "2.90", "3.51"],
  [18, "1.03", "1.73", "2.10", "2.15", "2.88", "3.48"],
  [19, "1.03", "1.73", "2.09", "2.14", "2.86", "3.45"],
  [20, "1.03", "1.72", "2.09", "2.13", "2.85", "3.42"],
  [25, "1.02", "1.71", "2.06", "2.11", "2.79", "3.33"],
  [30, "1.02", "1.70", "2.04", "2.09", "2.75", "3.27"],
  [35, "1.01", "1.69", "2.03", "2.07", "2.72", "3.23"],
  [40, "1.01", "1.68", "2.02", "2.06", "2.70", "3.20"],
  [45, "1.01", "1.68", "2.01", "2.06", "2.69", "3.18"],
  [50, "1.01", "1.68", "2.01", "2.05", "2.68", "3.16"],
  [100, "1.005", "1.660", "1.984", "2.025", "2.626", "3.077"],
];

const distributionOf = (statement: Statement) => readStatement(statement, "selfcheck").distribution;

const tFactors = (degrees: readonly number[]): Finding[] =>
  T_FACTORS.filter(([ν]) => degrees.includes(ν)).map(([ν, ...row]) => {
    const t = distributionOf({ distribution: "t", estimate: 0, standardUncertainty: 1, degreesOfFreedom: ν });
    return printed(
      `t with ν = ${ν} at 68.27, 90, 95, 95.45, 99, 99.73 %`,
      row,
      PROBABILITIES.map((p) => t.quantile((1 + p) / 2)),
    );
  });

function normalFactors(): Finding[] {
  const normal = distributionOf({ distribution: "normal", estimate: 0, standardUncertainty: 1 });
  return [
    printed(
      "normal at 68.27, 90, 95, 95.45, 99, 99.73 %",
      ["1.000", "1.645", "1.960", "2.000", "2.576", "3.000"],
      PROBABILITIES.map((p) => normal.quantile((1 + p) / 2)),
    ),
    near("normal at 95 %, unrounded", 1.959963984540054, normal.quantile(0.975), 1e-14, "figures given", {
      source: "computed independently: 60-digit arithmetic",
    }),
    near(
      "Φ(−1), Φ(−2), Φ(−3)",
      [0.15865525393145707, 0.022750131948179195, 0.0013498980316300933],
      [-1, -2, -3].map((z) => normal.distributionFunction(z)),
      1e-15,
      "figures given",
      { source: "computed independently: 60-digit arithmetic" },
    ),
  ];
}

/** Half-widths about the middle that hold 95 % and 99 %, and u, of distributions on −1 to 1. */
const HALF_WIDTHS: readonly (readonly [
  name: string,
  statement: Statement,
  half: readonly [number, number],
  u: number,
])[] = [
  ["rectangular", { distribution: "rectangular", lower: -1, upper: 1 } as Statement, [0.95, 0.99], 0.577350269189626],
  [
    "triangular",
    { distribution: "triangular", lower: -1, upper: 1 } as Statement,
    [0.77639320225, 0.9],
    0.408248290463863,
  ],
  [
    "arcsine",
    { distribution: "arcsine", lower: -1, upper: 1 } as Statement,
    [0.996917333733, 0.999876632482],
    Math.SQRT1_2,
  ],
  [
    "trapezoidal, β = ½",
    { distribution: "trapezoidal", lower: -1, upper: 1, topRatio: 0.5 } as Statement,
    [0.80635083269, 0.913397459622],
    0.456435464587638,
  ],
  [
    "curvilinear trapezoid, d = 0.5",
    { distribution: "curvilinear-trapezoid", lower: -1, upper: 1, limitHalfWidth: 0.5 } as Statement,
    [1.12975420628, 1.33016135833],
    0.600925212577,
  ],
  [
    "curvilinear trapezoid, d = 0.1",
    { distribution: "curvilinear-trapezoid", lower: -1, upper: 1, limitHalfWidth: 0.1 } as Statement,
    [0.955048235143, 1.03433757606],
    0.578311719097,
  ],
];

const halfWidths = (): Finding[] =>
  HALF_WIDTHS.flatMap(([name, statement, half, u]) => {
    const found = distributionOf(statement);
    return [
      near(
        `${name}: half-width at 95 and 99 %`,
        half,
        [found.quantile(0.975), found.quantile(0.995)],
        1e-10,
        "figures given",
      ),
      near(`${name}: u`, u, found.standardDeviation, 1e-11, "figures given"),
    ];
  });

/** A study that adds inputs. */
async function sum(context: CheckContext, inputs: Readonly<Record<string, Statement>>): Promise<MeasurandRecord> {
  const document: StudyDocument = {
    title: "A sum with a closed form",
    model: "additive",
    parameters: {
      coefficients: Object.fromEntries(Object.keys(inputs).map((name) => [name, 1])),
      measurand: { name: "y", symbol: "Y", meaning: "sum", unit: "1" },
    },
    inputs,
    trials: context.quick ? 200_000 : 1_000_000,
    seed: "closed-forms",
  };
  return (await context.run(document)).measurands["y"]!;
}

const sumsOfRectangulars: Check["lines"] = async (context) => {
  const findings: Finding[] = [];
  // Upper tail of n rectangulars on (−1, 1): (n − z)ⁿ/(2ⁿ n!) while z ≥ n − 2, so z = n − 2·(n!·(1 − p)/2)^(1/n).
  for (const [n, half] of [
    [2, 2 - 2 * Math.sqrt(0.05)],
    [3, 3 - 2 * Math.cbrt(0.15)],
    [4, 4 - 2 * Math.sqrt(Math.sqrt(0.6))],
  ] as const) {
    const inputs = Object.fromEntries(
      Array.from({ length: n }, (_, i) => [
        `x${i + 1}`,
        { distribution: "rectangular", estimate: 0, halfWidth: 1 } as Statement,
      ]),
    );
    const { monteCarlo, linear } = await sum(context, inputs);
    const { standardErrors: se } = monteCarlo;
    findings.push(
      near(
        `sum of ${n} rectangulars: u, linear`,
        Math.sqrt(n / 3),
        linear.standardUncertainty,
        1e-9,
        "derivatives to 10⁻⁹",
      ),
      near(
        `sum of ${n} rectangulars: u, Monte Carlo`,
        Math.sqrt(n / 3),
        monteCarlo.standardUncertainty,
        STANDARD_ERRORS * se.standardUncertainty!,
        FIVE_ERRORS,
      ),
      near(
        `sum of ${n} rectangulars: excess kurtosis`,
        -1.2 / n,
        monteCarlo.excessKurtosis,
        (STANDARD_ERRORS * Math.sqrt(24)) / Math.sqrt(monteCarlo.trials),
        "five standard errors, as of a normal, which has more",
      ),
      near(
        `sum of ${n} rectangulars: 95 % interval`,
        [-half, half],
        monteCarlo.intervals.symmetric,
        STANDARD_ERRORS * Math.max(...se.symmetric),
        FIVE_ERRORS,
      ),
    );
  }
  return findings;
};

const arcsine: Check["lines"] = async (context) => {
  const { monteCarlo, linear } = await sum(context, {
    x1: { distribution: "arcsine", estimate: 0, halfWidth: 0.5 } as Statement,
  });
  const half = 0.5 * Math.sin((Math.PI * 0.95) / 2);
  return [
    near("arcsine ±0.5: u, linear", 0.5 * Math.SQRT1_2, linear.standardUncertainty, 1e-9, "derivatives to 10⁻⁹"),
    near(
      "arcsine ±0.5: u, Monte Carlo",
      0.5 * Math.SQRT1_2,
      monteCarlo.standardUncertainty,
      STANDARD_ERRORS * monteCarlo.standardErrors.standardUncertainty!,
      FIVE_ERRORS,
    ),
    near(
      "arcsine ±0.5: 95 % interval",
      [-half, half],
      monteCarlo.intervals.symmetric,
      STANDARD_ERRORS * Math.max(...monteCarlo.standardErrors.symmetric),
      FIVE_ERRORS,
    ),
  ];
};

const chiSquare: Check["lines"] = async (context) => {
  const { monteCarlo } = (await context.example("comparison-loss-00")).measurands["loss"]!;
  const unit = "10⁻⁶";
  const found = new Map(monteCarlo.distributionFunction.map(([p, value]) => [p, value]));
  return [
    ...[0.05, 0.25, 0.5, 0.75, 0.95, 0.99].map((p) => {
      const quantile = -50 * Math.log(1 - p);
      // √(p(1 − p)/M) over the density (1 − p)/2u².
      const error = (50 * Math.sqrt(p / (1 - p))) / Math.sqrt(monteCarlo.trials);
      return near(
        `loss at x₁ = 0: quantile at ${100 * p} %`,
        quantile,
        1e6 * (found.get(p) ?? Number.NaN),
        STANDARD_ERRORS * error,
        FIVE_ERRORS,
        { unit },
      );
    }),
    near(
      "loss at x₁ = 0: skewness",
      2,
      monteCarlo.skewness,
      STANDARD_ERRORS * Math.sqrt(EXPONENTIAL_SKEWNESS / monteCarlo.trials),
      FIVE_ERRORS,
    ),
  ];
};

/** M times the variance of the sample skewness of an exponential, by the delta method from moments up to the sixth. */
const EXPONENTIAL_SKEWNESS = 72;

const secondOrderMass: Check["lines"] = async (context) => {
  const { secondOrder } = (await context.example("mass-calibration")).measurands["deviation"]!;
  const term = (ρ: number, width: number): number =>
    ((100_001.234 / (ρ * ρ)) * (0.1 / Math.sqrt(3)) * width) / Math.sqrt(3);
  const u = Math.sqrt(0.05 * 0.05 + 0.02 * 0.02 + term(8000, 1000) ** 2 + term(8000, 50) ** 2);
  return [
    near(
      "mass: u with second-order terms",
      u,
      secondOrder?.standardUncertainty ?? null,
      1e-7,
      "second derivatives to 10⁻⁶",
      {
        unit: "mg",
      },
    ),
  ];
};

function functions(): Finding[] {
  const { exp, ln, sin, cos, atan2 } = elementary;
  const basis = "half a unit of the last binary digit, twice";
  return [
    near("exp(0.1), exp(−10)", [1.1051709180756477, 4.5399929762484854e-5], [exp(0.1), exp(-10)], 3e-16, basis),
    near("ln 3, ln 0.7", [1.0986122886681098, -0.35667494393873245], [ln(3), ln(0.7)], 3e-16, basis),
    near("sin 1, cos 1", [0.8414709848078965, 0.5403023058681398], [sin(1), cos(1)], 3e-16, basis),
    near("atan2(1, −1) = 3π/4", 2.356194490192345, atan2(1, -1), 1e-15, basis),
  ];
}
