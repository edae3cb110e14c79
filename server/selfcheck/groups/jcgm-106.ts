import type { AssessmentRecord, ConformityRecord, StudyDocument } from "../../../engine/index.ts";
import type { Finding } from "../../../viewer/api/selfcheck.ts";
import type { Check, CheckContext, CheckGroup } from "../check.ts";
import { near, printed, STANDARD_ERRORS } from "../judge.ts";

/**
 * Conformity by JCGM 106:2012. Every case is a study whose one input is the measured value with its uncertainty. If the
 * document's own figure is not known for certain none is claimed, and the case checks the clause's formula.
 */
export const jcgm106: CheckGroup = {
  id: "jcgm-106",
  title: "Conformity, JCGM 106:2012",
  checks: () => [
    {
      title: "one limit",
      source: "JCGM 106:2012, 7.3.3, example 1 (breakdown voltage of a Zener diode)",
      lines: zener,
    },
    {
      title: "two limits",
      source: "JCGM 106:2012, 7.4, example (viscosity of a motor oil)",
      lines: viscosity,
    },
    {
      title: "capability",
      source: "JCGM 106:2012, 7.7.2, equation (14): p_c = Φ(4C_m(1 − ỹ)) − Φ(−4C_m ỹ)",
      lines: capability,
    },
    {
      title: "few degrees of freedom",
      source: "computed independently: distribution function of t",
      lines: fewDegrees,
    },
    {
      title: "guard bands",
      source: "JCGM 106:2012, 8.3.2: risk of a value on the acceptance limit, w = r·U, U = 2u",
      lines: guardBands,
    },
    {
      title: "prior knowledge",
      source: "JCGM 106:2012, 7.2 and annex A; computed independently: Bayes' theorem by quadrature",
      lines: posterior,
    },
    {
      title: "global risks",
      source: "JCGM 106:2012, 9.5; computed independently: adaptive quadrature",
      lines: globalRisks,
    },
  ],
};

interface Case {
  readonly y: number;
  readonly u: number;
  readonly ν?: number;
  readonly lower?: number;
  readonly upper?: number;
  readonly r?: number;
  readonly prior?: { readonly mean: number; readonly standardDeviation: number };
  readonly trials?: number;
}

/** Assesses a measured value; the budget's side of it needs no trials to speak of. */
async function assess(
  context: CheckContext,
  { y, u, ν, lower, upper, r = 0, prior, trials = 10_000 }: Case,
): Promise<ConformityRecord> {
  const document: StudyDocument = {
    title: "Conformity of a measured value",
    model: "additive",
    parameters: { coefficients: { x: 1 }, measurand: { name: "y", symbol: "Y", meaning: "measured value", unit: "1" } },
    inputs: {
      x:
        ν === undefined
          ? { distribution: "normal", estimate: y, standardUncertainty: u }
          : { distribution: "t", estimate: y, standardUncertainty: u, degreesOfFreedom: ν },
    },
    coverage: { factor: 2 },
    conformity: {
      y: {
        tolerance: { ...(lower === undefined ? {} : { lower }), ...(upper === undefined ? {} : { upper }) },
        guardBandMultiplier: r,
        ...(prior === undefined ? {} : { prior }),
      },
    },
    trials,
    seed: "conformity",
  };
  const { conformity } = (await context.run(document)).measurands["y"]!;
  return conformity!;
}

const byTrials = (
  what: string,
  pc: number,
  { probabilityOfConformity, standardError }: AssessmentRecord,
  source: string,
): Finding =>
  near(what, pc, probabilityOfConformity, STANDARD_ERRORS * (standardError ?? Number.NaN), "5√(p(1 − p)/M)", {
    source,
  });

const zener: Check["lines"] = async (context) => {
  const { linear, monteCarlo } = await assess(context, {
    y: -5.47,
    u: 0.05,
    upper: -5.4,
    trials: context.quick ? 50_000 : 1_000_000,
  });
  const source = "computed independently: Φ(1.4)";
  return [
    printed("Zener diode: conformance probability", "0.92", linear.probabilityOfConformity),
    near(
      "Zener diode: conformance probability, unrounded",
      0.9192433407662273,
      linear.probabilityOfConformity,
      1e-12,
      "figures given",
      {
        source,
      },
    ),
    byTrials("Zener diode: by Monte Carlo", 0.9192433407662273, monteCarlo, source),
  ];
};

const viscosity: Check["lines"] = async (context) => {
  const { linear, monteCarlo } = await assess(context, {
    y: 13.6,
    u: 1.8,
    lower: 12.5,
    upper: 16.3,
    trials: context.quick ? 50_000 : 1_000_000,
  });
  const source = "computed independently: normal distribution";
  return [
    printed("motor oil: conformance probability", "0.66", linear.probabilityOfConformity),
    near(
      "motor oil: conformance probability, unrounded",
      0.6626297864953078,
      linear.probabilityOfConformity,
      1e-12,
      "figures given",
      { source },
    ),
    near(
      "motor oil: below and above the limits",
      [0.2705630122358342, 0.06680720126885802],
      [linear.below, linear.above],
      1e-12,
      "figures given",
    ),
    byTrials("motor oil: by Monte Carlo", 0.6626297864953078, monteCarlo, source),
  ];
};

/** C_m, then p_c at ỹ = 0, 0.05, 0.1, 0.25, 0.5. */
const CAPABILITY = [
  { cm: 1, pc: [0.4999683287581669, 0.5791873613951779, 0.6552626330201666, 0.8399948480369128, 0.9544997361036416] },
  { cm: 2, pc: [0.49999999999999933, 0.6554217416103094, 0.7881446014163023, 0.9772498670652331, 0.9999366575163338] },
  { cm: 4, pc: [0.5, 0.7881446014166034, 0.945200708300442, 0.9999683287581669, 0.9999999999999987] },
] as const;
const PLACES = [0, 0.05, 0.1, 0.25, 0.5] as const;

const capability: Check["lines"] = async (context) => {
  const findings: Finding[] = [];
  for (const { cm, pc } of CAPABILITY) {
    // Any tolerance will do: T = 8 from −3.
    const found = [];
    for (const at of PLACES)
      found.push(await assess(context, { y: -3 + 8 * at, u: 8 / (4 * cm), lower: -3, upper: 5 }));
    findings.push(
      near(
        `C_m = ${cm}: p_c at ỹ = ${PLACES.join(", ")}`,
        pc,
        found.map(({ linear }) => linear.probabilityOfConformity),
        1e-12,
        "roundings of y",
      ),
      near(
        `C_m = ${cm}: measurement capability index`,
        cm,
        found[0]!.linear.measurementCapability,
        1e-9,
        "derivatives to 10⁻⁹",
        {
          source: "JCGM 106:2012, 7.6.2, equation (12): T/(4u)",
        },
      ),
    );
  }
  return findings;
};

const FEW = [
  { y: 0.25, u: 0.03, ν: 9, upper: 0.294, pc: 0.9117411351921176 },
  { y: -0.31, u: 0.02, ν: 3, lower: -0.294, pc: 0.24109947587554093 },
  { y: -0.4, u: 0.05, ν: 2, lower: -0.294, upper: 0.294, pc: 0.08147929129439513 },
  { y: 0.12, u: 0.04, ν: 4.7, lower: -0.294, upper: 0.294, pc: 0.9956594409410077 },
] as const;

const fewDegrees: Check["lines"] = async (context) => {
  const findings: Finding[] = [];
  for (const { pc, ...row } of FEW) {
    const { linear } = await assess(context, row);
    findings.push(
      near(
        `t with ν = ${row.ν}, y = ${String(row.y).replace("-", "−")}: p_c`,
        pc,
        linear.probabilityOfConformity,
        1e-9,
        "derivatives to 10⁻⁹",
      ),
    );
  }
  return findings;
};

/** r and the risk, Φ(−2r). */
export const GUARD_BANDS: readonly (readonly [r: number, risk: number])[] = [
  [0, 0.5],
  [0.5, 0.15865525393145707],
  [0.83, 0.04845722626672282],
  [1, 0.022750131948179195],
  [1.5, 0.0013498980316300933],
];

const guardBands: Check["lines"] = async (context) => {
  const findings: Finding[] = [];
  for (const [r, risk] of GUARD_BANDS) {
    const u = 0.3;
    const { linear } = await assess(context, { y: 7 - 2 * r * u, u, upper: 7, r });
    findings.push(
      near(
        `w = ${r}·U: acceptance limit below a tolerance limit of 7`,
        7 - 2 * r * u,
        linear.acceptance?.upper ?? null,
        1e-9,
        "derivatives to 10⁻⁹",
      ),
      near(`w = ${r}·U: specific consumer's risk there`, risk, linear.above, 1e-9, "derivatives to 10⁻⁹"),
    );
  }
  return findings;
};

const PRIORS = [
  {
    prior: { mean: 1500, standardDeviation: 0.12 },
    y: 1500.15,
    u: 0.04,
    estimate: 1500.135,
    posteriorU: 0.03794733192205548,
  },
  { prior: { mean: 0, standardDeviation: 1 }, y: 3, u: 1, estimate: 1.5, posteriorU: Math.SQRT1_2 },
  {
    prior: { mean: 10, standardDeviation: 0.1 },
    y: 9,
    u: 5,
    estimate: 9.999600159936024,
    posteriorU: 0.0999800059980006,
  },
] as const;

const posterior: Check["lines"] = async (context) => {
  const findings: Finding[] = [];
  for (const { prior, y, u, estimate, posteriorU } of PRIORS) {
    const { linear } = await assess(context, { y, u, upper: y + u, prior });
    const what = `prior N(${prior.mean}, ${prior.standardDeviation}²), measured ${y}, u = ${u}`;
    findings.push(
      near(
        `${what}: estimate and u`,
        [estimate, posteriorU],
        [linear.posterior?.estimate ?? null, linear.posterior?.standardUncertainty ?? null],
        1e-8,
        "quadrature of the reference, derivatives to 10⁻⁹",
      ),
    );
  }
  return findings;
};

/** Prior N(1500, 0.12²), u_m = 0.04, tolerance 1499.8 to 1500.2; w in units of U = 0.08. */
const RISKS = [
  { r: -1, consumer: 0.06940461001199644, producer: 0.0006806009739766159 },
  { r: 0, consumer: 0.018942206717022236, producer: 0.03720780017798754 },
  { r: 0.5, consumer: 0.004334072221826345, producer: 0.11465657840794867 },
  { r: 1, consumer: 0.00046863359887639426, producer: 0.24766964020057258 },
] as const;

const globalRisks: Check["lines"] = async (context) => {
  const findings: Finding[] = [];
  for (const { r, consumer, producer } of RISKS) {
    const { linear } = await assess(context, {
      y: 1500,
      u: 0.04,
      lower: 1499.8,
      upper: 1500.2,
      r,
      prior: { mean: 1500, standardDeviation: 0.12 },
    });
    const found = linear.globalRisk;
    findings.push(
      near(
        `prior N(1500, 0.12²), u = 0.04, w = ${String(r).replace("-", "−")}·U: R_C, R_P`,
        [consumer, producer],
        [found?.consumer ?? null, found?.producer ?? null],
        1e-8,
        "derivatives to 10⁻⁹ of u",
      ),
    );
  }
  return findings;
};
