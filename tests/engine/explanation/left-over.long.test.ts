// @module-tag long
// What an explanation leaves unexplained, for every example whose linearised distribution is known and whose verdict
// paired trials decide.
import { expect, test } from "vitest";
import { propagate, type Model, readStudy } from "../../../engine/index.ts";
import checkWeight from "../../../examples/density/density.ts";
import { exampleStudies, modelOf } from "../../read-example.ts";

const TRIALS = 20_000;
/** Part of the difference. */
const NEGLIGIBLE = 0.01;

/** Normals in a linear model: budget and Monte Carlo have one distribution, and what differs is rounding. */
const NOTHING_DIFFERS = [
  "published/additive-normal y",
  "published/common-term-normal first",
  "published/common-term-normal second",
  "published/thermometer-line intercept",
  "published/thermometer-line prediction",
  "published/thermometer-line slope",
];

/**
 * The model bends so much, or the difference is so small, that so few paired trials know the difference less well than to
 * a hundredth. Its verdict is decided all the same.
 */
const STILL_SCATTERS = [
  // A modulus or a phase near the origin: second-order terms of the order of the first (GUM supplement 2, 9.3).
  "published/polar-001 modulus",
  "published/polar-001-correlated modulus",
  "published/polar-010 modulus",
  "published/polar-010 phase",
  "published/polar-010-correlated modulus",
  "published/polar-100 phase",
  "published/polar-100-correlated modulus",
  "published/polar-100-correlated phase",
  // Products of inputs whose coefficients at the estimates are 0 or nearly so: the linear model has no such term
  // (JCGM 101, 9.5.4).
  "published/gauge-block deviation",
  // Small differences, of 1 % to 9 % of u, beside quotients and powers that bend a little.
  "platinum/probe-fit-hf-021 C",
  "platinum/sprt-bath-72 error",
  "platinum/sprt-bath-minus-40 error",
  "platinum/two-wire-pasteuriser temperature",
  // An exponential of the temperature: the part of the curvature is most of the difference.
  "verdicts/curvature lethality",
];

/** Paired trials do not decide these: their standard error is of the order of what δ and d differ by. */
const UNDECIDED = ["published/end-gauge length", "published/polar-100 modulus"];

interface Measured {
  readonly id: string;
  readonly difference: number;
  readonly remainder: number;
  readonly scatter: number;
  readonly standardUncertainty: number;
  readonly decided: boolean;
}

const all = exampleStudies().flatMap(({ name, document }): Measured[] => {
  const model: Model = document.model.endsWith(".ts") ? (checkWeight as Model) : modelOf(document);
  const { measurands } = propagate(model, readStudy({ ...document, trials: TRIALS }));
  return Object.entries(measurands).flatMap(([measurand, { paired, explanation, linear }]) => {
    if (paired?.kind !== "figures") return [];
    return [
      {
        id: `${name.replace(".json", "")} ${measurand}`,
        difference: Math.max(...explanation!.difference.map(Math.abs)),
        remainder: Math.max(...explanation!.remainder.map(Math.abs)),
        scatter: 2 * Math.max(...paired.standardErrors.interval),
        standardUncertainty: linear.standardUncertainty,
        decided: paired.decision !== "undecided",
      },
    ];
  });
});

const named = (found: readonly Measured[]): string[] => found.map(({ id }) => id).toSorted();
const differing = all.filter(({ id }) => !NOTHING_DIFFERS.includes(id));

test("where nothing differs, the difference is rounding", () => {
  // A quantile is found to some 10⁻¹² u of its own.
  const rounding = all.filter(({ difference, standardUncertainty: u }) => difference < 1e-11 * u);
  expect(named(rounding)).toEqual(NOTHING_DIFFERS);
});

test.each(differing)("$id: what is left over is below 1 % of the difference", ({ remainder, difference }) => {
  expect(remainder).toBeLessThan(NEGLIGIBLE * difference);
});

test("those that paired trials do not decide are these", () => {
  expect(named(all.filter(({ decided }) => !decided))).toEqual(UNDECIDED);
});

test("two standard errors are below 1 % of the difference, but for these", () => {
  const more = differing.filter(({ decided, scatter, difference }) => decided && scatter >= NEGLIGIBLE * difference);
  expect(named(more)).toEqual(STILL_SCATTERS.toSorted());
});
