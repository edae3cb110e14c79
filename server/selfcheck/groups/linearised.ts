import { type Statement } from "../../../engine/index.ts";
import { linearisedOf, readStatement, type LinearTerm } from "../../../engine/internal.ts";
import type { Finding } from "../../../viewer/api/selfcheck.ts";
import type { Check, CheckGroup } from "../check.ts";
import { near, printed } from "../judge.ts";

/** The distribution of the linearised model with the stated distributions, by convolution: sums with closed forms. */
export const linearised: CheckGroup = {
  id: "linearised",
  title: "The linearised model with the stated distributions",
  checks: () => [
    { title: "inputs added", source: "JCGM 101:2008, 9.2", lines: added },
    {
      title: "one or two rectangulars dominate",
      source: "EA-4/02 M:2022, supplements 1 and 2 (from secondary sources)",
      lines: dominated,
    },
    sums("equal rectangulars", "computed independently: Irwin–Hall in 60-digit arithmetic", RECTANGULARS),
    sums("a rectangular and a normal", "computed independently: integral of Φ in 40-digit arithmetic", WITH_NORMAL),
    sums("exponentials and gammas", "computed independently: Erlang in 60-digit arithmetic", EXPONENTIALS),
  ],
};

/** In standard deviations of the sum. */
const LIMIT = 1e-6;
const BASIS = "10⁻⁶ u asked of a convolution";

const rectangular = (halfWidth: number): Statement => ({ distribution: "rectangular", estimate: 0, halfWidth });
const normal = (standardUncertainty: number): Statement => ({
  distribution: "normal",
  estimate: 0,
  standardUncertainty,
});
const exponential: Statement = { distribution: "exponential", estimate: 1 };
const times = (n: number, statement: Statement): Statement[] => Array.from({ length: n }, () => statement);

/** Endpoints in standard deviations of the sum; none if the distribution is not available. */
function endsOf(statements: readonly Statement[], probability = 0.95): readonly [number, number] | null {
  const terms: LinearTerm[] = statements.map((statement) => {
    const { distribution, budget } = readStatement(statement, "inputs.x");
    return { inputs: ["x"], distribution, coefficient: 1, centre: budget.estimate, twin: budget.standardUncertainty };
  });
  const found = linearisedOf(terms, { probability, tolerance: 1e-4 });
  if (found.kind === "unavailable") return null;
  const u = found.distribution.standardDeviation;
  return [found.interval[0] / u, found.interval[1] / u];
}

type Sum = readonly [name: string, statements: readonly Statement[], ends: readonly [number, number]];

/** Endpoints of the 95 % interval over u. */
export const RECTANGULARS: readonly Sum[] = (
  [
    [2, 1.901767187251],
    [3, 1.937341430817],
    [4, 1.939703370674],
    [6, 1.945754144421],
    [12, 1.952949215762],
  ] as const
).map(([n, end]) => [`${n} equal rectangulars`, times(n, rectangular(1)), [-end, end]]);

const WITH_NORMAL: readonly Sum[] = (
  [
    [1, 1.952139977785],
    [0.1, 1.674547126064],
    [0.01, 1.645201506396],
  ] as const
).map(([σ, end]) => [
  `rectangular, normal of ${σ} ${σ === 1 ? "half-width" : "half-widths"}`,
  [rectangular(1), normal(σ)],
  [-end, end],
]);

const EXPONENTIALS: readonly Sum[] = [
  ["2 exponentials", times(2, exponential), [-1.242945739046, 2.525533261713]],
  ["5 exponentials", times(5, exponential), [-1.510022791727, 2.344109717659]],
  [
    "12 as gammas of shape 5, 4 and 3",
    [5, 4, 3].map((shape): Statement => ({ distribution: "gamma", shape, scale: 1 })),
    [-1.674149761062, 2.217613501788],
  ],
];

export const sums = (title: string, source: string, rows: readonly Sum[]): Check => ({
  title,
  source,
  lines: () =>
    rows.map(([name, statements, ends]) =>
      near(`${name}: 95 % endpoints / u`, ends, endsOf(statements) ?? [], LIMIT, BASIS),
    ),
});

function added(): Finding[] {
  const one = rectangular(Math.sqrt(3));
  const rectangulars = [one, one, one, one];
  const dominant = [one, one, one, rectangular(10 * Math.sqrt(3))];
  const exact = { source: "computed independently: distribution function of the sum" };
  return [
    printed("9.2.2, four normals: upper endpoint", "3.92", scaled(times(4, normal(1)), 2)),
    printed("9.2.3, four rectangulars: upper endpoint", "3.88", scaled(rectangulars, 2)),
    near(
      "9.2.3: the same unrounded, 2√3·(2 − (3/5)^¼)",
      3.87940674135,
      scaled(rectangulars, 2),
      2 * LIMIT,
      BASIS,
      exact,
    ),
    printed("9.2.4, one dominates: upper endpoint", "17.0", scaled(dominant, Math.sqrt(103))),
    near("9.2.4: the same unrounded", 17.0158140999, scaled(dominant, Math.sqrt(103)), 10 * LIMIT, BASIS, exact),
  ];
}

const scaled = (statements: readonly Statement[], u: number): number => u * (endsOf(statements)?.[1] ?? Number.NaN);

/** Half-widths of the dominant terms; the factor k that the document prints for 95 %. */
function dominated(): Finding[] {
  const k = (statements: readonly Statement[], probability = 0.95): number =>
    endsOf(statements, probability)?.[1] ?? Number.NaN;
  const exact = { source: "computed independently: the trapezoid's closed form" };
  return [
    printed("S9, one rectangular: k", "1.65", k([rectangular(0.05)])),
    printed("S10, rectangulars of 50 µm and 25 µm: k", "1.83", k([rectangular(50), rectangular(25)])),
    near("S10: the same unrounded", 1.833892059168, k([rectangular(50), rectangular(25)]), LIMIT, BASIS, exact),
    // The document prints 1.81, which lies between these.
    near(
      "S11, rectangulars of 0.25 °C and 0.1 °C: k at 95 % and at 95.45 %",
      [1.796577497012, 1.817528657787],
      [0.95, 0.9545].map((probability) => k([rectangular(0.25), rectangular(0.1)], probability)),
      LIMIT,
      BASIS,
      exact,
    ),
  ];
}
