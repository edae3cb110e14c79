import type { Check, CheckGroup } from "../check.ts";
import { between, FIVE_ERRORS, near, printed, STANDARD_ERRORS, withTheirs } from "../judge.ts";

/**
 * The worked examples of JCGM 102:2011, 6.5.2.3, 7.7.2 and clause 9, and the data of GUM H.2 by 5.3.2. Means, standard deviations and
 * correlations were computed by quadrature; coverage factors of distributions that are not normal come from 10⁷ trials
 * of an unrelated program, which also gave the density there and so the scale of their standard errors
 * (tests/server/selfcheck/coverage-factors.py).
 */
export const jcgm102: CheckGroup = {
  id: "jcgm-102",
  title: "Worked examples of JCGM 102:2011",
  checks: () => [
    ...SUMS.map(sums),
    ...POLAR.map(polar),
    {
      title: "impedance, data of JCGM 100, H.2",
      source: "JCGM 102:2011, 5.3.2, with the data of JCGM 100:2008, H.2, table H.2",
      lines: impedance,
    },
  ],
};

/** Trials of the unrelated program. */
const REFERENCE_TRIALS = 10_000_000;
const QUADRATURE = "computed independently: quadrature in polar co-ordinates";
const UNRELATED = "computed independently: 10⁷ trials with PCG64";

/** A coverage factor, and its standard error times √M. */
interface Factor {
  readonly k: number;
  readonly scale: number;
  /** Set if k has a closed form. */
  readonly exact?: string;
}

function factorLine(what: string, { k, scale, exact }: Factor, obtained: number | null, trials: number) {
  const theirs = exact === undefined ? scale / Math.sqrt(REFERENCE_TRIALS) : 0;
  return near(
    what,
    k,
    obtained,
    withTheirs(scale / Math.sqrt(trials), theirs),
    exact === undefined ? "five standard errors of both runs" : FIVE_ERRORS,
    { source: exact ?? UNRELATED },
  );
}

const SUMS = [
  {
    id: "common-term-normal",
    clause: "6.5.2.3, example 2",
    kp: { k: 2.447746831, scale: 1.79, exact: "JCGM 102:2011, 6.5.2: √χ²₂(0.95) = √(−2 ln 0.05)" },
    kq: { k: 2.07088089519, scale: 1.86, exact: "computed independently: bivariate normal at r = 0.95" },
    rScale: 0.0975,
  },
  {
    id: "common-term-rectangular",
    clause: "7.7.2, example",
    kp: { k: 2.272046, scale: 1.57 },
    kq: { k: 1.793107, scale: 0.687 },
    rScale: 0.0825,
  },
] as const;

function sums({ id, clause, kp, kq, rScale }: (typeof SUMS)[number]): Check {
  return {
    title: id,
    source: `JCGM 102:2011, ${clause}`,
    async lines(context) {
      const { joint, measurands } = await context.example(id);
      const { linear, monteCarlo, ellipsoid, rectangle, pairs } = joint!;
      const { trials } = measurands["first"]!.monteCarlo;
      const { grid } = pairs[0]!;
      const source = "computed independently: closed form";
      return [
        ...["first", "second"].flatMap((name) => {
          const found = measurands[name]!;
          const error = found.monteCarlo.standardErrors.standardUncertainty!;
          return [
            near(
              `${id}: u of the ${name} sum, linear`,
              Math.SQRT2,
              found.linear.standardUncertainty,
              1e-9,
              "derivatives to 10⁻⁹",
              {
                source,
              },
            ),
            near(
              `${id}: u of the ${name} sum, Monte Carlo`,
              Math.SQRT2,
              found.monteCarlo.standardUncertainty,
              STANDARD_ERRORS * error,
              FIVE_ERRORS,
              { source },
            ),
          ];
        }),
        near(`${id}: correlation, linear`, 0.95, linear.correlation[0]![1]!, 1e-9, "derivatives to 10⁻⁹", { source }),
        near(
          `${id}: correlation, Monte Carlo`,
          0.95,
          monteCarlo?.correlation[0]![1] ?? null,
          (STANDARD_ERRORS * rScale) / Math.sqrt(trials),
          FIVE_ERRORS,
          { source },
        ),
        factorLine(`${id}: k_p of the 95 % ellipse`, kp, ellipsoid?.factor ?? null, trials),
        factorLine(`${id}: k_q of the 95 % rectangle`, kq, rectangle?.factor ?? null, trials),
        printed(`${id}: k_p of a normal`, "2.45", ellipsoid?.normalFactor ?? null, 0, "", {
          source: "JCGM 102:2011, 6.5.2.3, table 1",
        }),
        printed(`${id}: k_q enough for any normal`, "2.24", rectangle?.normalFactor ?? null, 0, "", {
          source: "JCGM 102:2011, 6.5.3, table 2",
        }),
        between(
          `${id}: share that the smallest region holds`,
          0.95,
          grid.held,
          [0.95, 0.95 + grid.least / trials],
          "p, and at most one cell more",
          { source: "JCGM 102:2011, 7.7.4" },
        ),
      ];
    },
  };
}

const POLAR = [
  {
    id: "001",
    name: "x₁ = 0.001",
    y: [0.012564455, 0],
    u: [0.0065676845, 1.7441272],
    r: 0,
    rScale: 0.988,
    kp: { k: 2.214268, scale: 1.53 },
    kq: { k: 1.838431, scale: 1.98 },
    printed: { y: ["0.013", "0.000"], u: ["0.007", "1.744"] },
  },
  {
    id: "001-correlated",
    name: "x₁ = 0.001, r = 0.9",
    y: [0.011732805, -0.55631245],
    u: [0.0079587234, 1.598787],
    r: -0.069649972,
    rScale: 0.994,
    kp: { k: 2.321117, scale: 1.63 },
    kq: { k: 2.140246, scale: 1.98 },
    printed: { y: ["0.012", "-0.556"], u: ["0.008", "1.599"] },
  },
  {
    id: "010",
    name: "x₁ = 0.010",
    y: [0.015485725, 0],
    u: [0.0077583718, 1.1175468],
    r: 0,
    rScale: 0.994,
    kp: { k: 2.57395, scale: 1.83 },
    kq: { k: 2.379544, scale: 1.88 },
    printed: { y: ["0.015", "0.000"], u: ["0.008", "1.117"] },
  },
  {
    id: "010-correlated",
    name: "x₁ = 0.010, r = 0.9",
    y: [0.015289077, -0.34292726],
    u: [0.0081390498, 0.90308018],
    r: 0.3518774,
    rScale: 0.916,
    kp: { k: 2.460169, scale: 2.53 },
    kq: { k: 2.112423, scale: 1.79 },
    printed: { y: ["0.015", "-0.343"], u: ["0.008", "0.903"] },
  },
  {
    id: "100",
    name: "x₁ = 0.100",
    y: [0.10050127, 0],
    u: [0.0099747108, 0.10051266],
    r: 0,
    rScale: 1.011,
    kp: { k: 2.451729, scale: 1.82 },
    kq: { k: 2.239221, scale: 1.72 },
    printed: { y: ["0.101", "0.000"], u: ["0.010", "0.101"] },
  },
  {
    id: "100-correlated",
    name: "x₁ = 0.100, r = 0.9",
    y: [0.10050909, -0.008985593],
    u: [0.0098955493, 0.10240968],
    r: 0.88201699,
    rScale: 0.195,
    kp: { k: 2.47883, scale: 2.29 },
    kq: { k: 2.161588, scale: 2.17 },
    printed: { y: ["0.101", "-0.009"], u: ["0.010", "0.102"] },
  },
] as const;

function polar(row: (typeof POLAR)[number]): Check {
  const title = `polar, ${row.name}`;
  return {
    title: `9.3, ${title}`,
    source: "JCGM 102:2011, 9.3, tables 6 and 7",
    async lines(context) {
      const { joint, measurands } = await context.example(`polar-${row.id}`);
      const { trials } = measurands["modulus"]!.monteCarlo;
      return [
        ...(["modulus", "phase"] as const).flatMap((part, i) => {
          const { estimate, standardUncertainty, standardErrors: se } = measurands[part]!.monteCarlo;
          const unit = i === 0 ? "" : "rad";
          const exact = { unit, source: QUADRATURE };
          const both = "five standard errors of both runs";
          const theirs = Math.sqrt(trials / 1_000_000);
          return [
            near(
              `${title}: mean of the ${part}`,
              row.y[i]!,
              estimate,
              STANDARD_ERRORS * se.estimate!,
              FIVE_ERRORS,
              exact,
            ),
            near(
              `${title}: u of the ${part}`,
              row.u[i]!,
              standardUncertainty,
              STANDARD_ERRORS * se.standardUncertainty!,
              FIVE_ERRORS,
              exact,
            ),
            ...(row.printed === null
              ? []
              : [
                  printed(
                    `${title}: mean of the ${part}, as printed`,
                    row.printed.y[i]!,
                    estimate,
                    withTheirs(se.estimate!, se.estimate! * theirs),
                    both,
                    { unit },
                  ),
                  printed(
                    `${title}: u of the ${part}, as printed`,
                    row.printed.u[i]!,
                    standardUncertainty,
                    withTheirs(se.standardUncertainty!, se.standardUncertainty! * theirs),
                    both,
                    { unit },
                  ),
                ]),
          ];
        }),
        near(
          `${title}: correlation`,
          row.r,
          joint?.monteCarlo?.correlation[0]![1] ?? null,
          (STANDARD_ERRORS * row.rScale) / Math.sqrt(trials),
          FIVE_ERRORS,
          { source: QUADRATURE },
        ),
        factorLine(`${title}: k_p of the 95 % ellipse`, row.kp, joint?.ellipsoid?.factor ?? null, trials),
        factorLine(`${title}: k_q of the 95 % rectangle`, row.kq, joint?.rectangle?.factor ?? null, trials),
      ];
    },
  };
}

const impedance: Check["lines"] = async (context) => {
  const { measurands } = await context.example("impedance");
  // Five sets of three quantities leave ν = 2: t₂ with the scale u·√(4/2), so that the half-width is t₂(0.975)·√2·u.
  const source = "JCGM 102:2011, 5.3.2 and 6.5: t with 5 − 3 = 2 degrees of freedom, t₂(0.975) = 4.302652729911";
  return Object.entries({ resistance: 0.071071407397, reactance: 0.295581677359, impedance: 0.236336130082 }).map(
    ([name, u]) => {
      const { intervals, standardErrors } = measurands[name]!.monteCarlo;
      const [low, high] = intervals.symmetric;
      // Half a sum of two ends: its error is at most that of the worse.
      return near(
        `H.2 data: half-width of the 95 % interval of the ${name}`,
        4.302652729911 * Math.SQRT2 * u,
        (high - low) / 2,
        STANDARD_ERRORS * Math.max(...standardErrors.symmetric),
        FIVE_ERRORS,
        { unit: "Ω", source },
      );
    },
  );
};
