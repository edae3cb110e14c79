// Conformity assessment against JCGM 106:2012 and SciPy. Figures and sources: tests/reference/conformity.json, written by
// conformity.py beside it.
import { describe, expect, test } from "vitest";
import { acceptanceInterval, accepts, guardBandsOf, ruleName } from "../../../engine/conformity/acceptance.ts";
import { globalRisk } from "../../../engine/conformity/global-risk.ts";
import { normalPosterior } from "../../../engine/conformity/posterior.ts";
import { conformityOfBudget } from "../../../engine/conformity/probability-of-conformity.ts";
import { gammaDistribution } from "../../../engine/distributions/gamma.ts";
import { normalDistribution } from "../../../engine/distributions/normal.ts";
import reference from "../../reference/conformity.json" with { type: "json" };

/** One guard band at both limits. */
const alike = (w: number) => ({ lower: w, upper: w });
const limits = (lower: number | null, upper: number | null) => ({ lower, upper, basis: null });
/** Double arithmetic on both sides: a few units in the last place of figures near 1, and of the tails themselves. */
const close = (got: number, wanted: number, relative = 1e-12) =>
  expect(Math.abs(got - wanted)).toBeLessThanOrEqual(relative * Math.abs(wanted) + 1e-15);

describe("probability of conformity, clause 7", () => {
  test.each([...reference["one limit"], ...reference["two limits"]])(
    "y = $y, u = $u: p_c = $pc",
    ({ y, u, lower, upper, pc, below, above }) => {
      const found = conformityOfBudget(y, u, Infinity, limits(lower, upper));
      close(found.value, pc);
      close(found.below, below);
      close(found.above, above);
    },
  );

  test("the breakdown voltage as printed: 0.92", () => {
    const [{ y, u, upper, printed }] = reference["one limit"] as [(typeof reference)["one limit"][0]];
    expect(Math.abs(conformityOfBudget(y, u, Infinity, limits(null, upper)).value - printed)).toBeLessThan(0.005);
  });

  test.each(reference["capability grid"].rows)(
    "C_m = $cm, y~ = $at: p_c = $pc (7.7.2, equation (14))",
    ({ cm, at, pc }) => {
      // Any tolerance and unit will do: T = 8 from −3.
      close(conformityOfBudget(-3 + 8 * at, 8 / (4 * cm), Infinity, limits(-3, 5)).value, pc);
    },
  );

  test.each(reference["t budget"].rows)(
    "t with ν = $dof, y = $y: p_c = $pc",
    ({ y, u, dof, lower, upper, pc, below, above }) => {
      const found = conformityOfBudget(y, u, dof, limits(lower, upper));
      close(found.value, pc, 1e-10);
      close(found.below, below, 1e-10);
      close(found.above, above, 1e-10);
    },
  );

  test.each([
    { y: 1, pc: 1 },
    { y: 2, pc: 1 },
    { y: 2.1, pc: 0 },
    { y: 0.9, pc: 0 },
  ])("no uncertainty at all: $y in [1, 2] has p_c = $pc", ({ y, pc }) => {
    expect(conformityOfBudget(y, 0, Infinity, limits(1, 2)).value).toBe(pc);
  });
});

describe("acceptance interval and decision, clause 8", () => {
  test.each([
    { r: 0, name: "simple acceptance", low: 10, high: 20 },
    { r: 1, name: "guarded acceptance", low: 11, high: 19 },
    { r: -0.5, name: "guarded rejection", low: 9.5, high: 20.5 },
  ])("r = $r is $name", ({ r, name, low, high }) => {
    expect(ruleName(r)).toBe(name);
    const interval = acceptanceInterval(limits(10, 20), alike(r * 1));
    expect(interval).toEqual({ lower: low, upper: high });
    expect([low, high, low - 1e-9, high + 1e-9].map((y) => accepts(interval, y))).toEqual([true, true, false, false]);
  });

  test("one limit has one acceptance limit", () => {
    expect(acceptanceInterval(limits(null, 5), alike(2))).toEqual({ lower: null, upper: 3 });
    expect(acceptanceInterval(limits(5, null), alike(2))).toEqual({ lower: 7, upper: null });
  });

  test("guard bands wider than half the tolerance leave nothing", () => {
    expect(acceptanceInterval(limits(0, 2), alike(1))).toEqual({ lower: 1, upper: 1 });
    expect(acceptanceInterval(limits(0, 2), alike(1.01))).toBeNull();
    expect(accepts(null, 1)).toBe(false);
  });

  test.each(reference["risk at an acceptance limit"].rows)(
    "w = $r U: specific consumer's risk at most $risk",
    ({ r, risk }) => {
      const u = 0.3;
      const acceptance = acceptanceInterval(limits(null, 7), alike(r * 2 * u))!;
      // 7 − w loses digits against the risk's own: the rounding of 7, in u, times the density's slope.
      close(conformityOfBudget(acceptance.upper!, u, Infinity, limits(null, 7)).above, risk, 1e-11);
    },
  );
});

describe("guard bands about an asymmetric result: w = r·U with U to the end that the rule is about (8.3.2, 8.3.3)", () => {
  test("guarded acceptance takes the end beyond which a non-conforming item would lie, guarded rejection the other", () => {
    expect(guardBandsOf(1, 5, [4, 8])).toEqual({ lower: 1, upper: 3 });
    expect(guardBandsOf(0.5, 5, [4, 8])).toEqual({ lower: 0.5, upper: 1.5 });
    expect(guardBandsOf(-1, 5, [4, 8])).toEqual({ lower: -3, upper: -1 });
    expect(guardBandsOf(0, 5, [4, 8])).toEqual({ lower: 0, upper: 0 });
  });

  test("an estimate outside its interval widens nothing", () => {
    expect(guardBandsOf(1, 3, [4, 8])).toEqual({ lower: 0, upper: 5 });
  });
});

describe("posterior, 7.2 and annex A", () => {
  test.each(reference.posterior.rows)(
    "prior N($mean, $sd²), measured $measured",
    ({ mean, sd, measured, u, estimate, posteriorU }) => {
      const found = normalPosterior({ mean, standardDeviation: sd }, measured, u);
      close(found.estimate, estimate, 1e-10);
      // The reference variance is a quadrature of (x − m)²: 1e-13 relative, its mean exact to 1e-13 of 1500.
      close(found.standardUncertainty, posteriorU, 1e-8);
    },
  );
});

describe("global risks, 9.5", () => {
  const normal = reference["normal prior"];
  test.each(normal.rows)("normal prior, w = $w: R_C = $consumer, R_P = $producer", ({ w, consumer, producer }) => {
    const tolerance = limits(normal.lower, normal.upper);
    const found = globalRisk(
      normalDistribution(normal.mean, normal.sd),
      normal.u,
      tolerance,
      acceptanceInterval(tolerance, alike(w)),
    );
    // 1499.8 and 1500.2 are exact to 1e-13 of their size: 2e-12 in u.
    close(found.consumer, consumer, 1e-10);
    close(found.producer, producer, 1e-10);
  });

  const gamma = reference["gamma prior"];
  test.each(gamma.rows)(
    "gamma prior, A_U = $acceptanceUpper: R_C = $consumer, R_P = $producer",
    ({ acceptanceUpper, consumer, producer }) => {
      const found = globalRisk(gammaDistribution(gamma.shape, gamma.scale), gamma.u, limits(null, gamma.upper), {
        lower: null,
        upper: acceptanceUpper,
      });
      close(found.consumer, consumer, 1e-10);
      close(found.producer, producer, 1e-10);
    },
  );

  // JCGM 106:2012, 9.5.4: r = 0.65, U = 0.5 µm; the document rounds A_U = 2 − 0.65·0.5 µm to 1.7 µm.
  test("gamma prior: 4.2 % non-conforming; printed risks of consumer and producer 0.1 % and 7.5 %", () => {
    const tolerance = limits(null, gamma.upper);
    const found = globalRisk(gammaDistribution(gamma.shape, gamma.scale), gamma.u, tolerance, {
      lower: null,
      upper: 2 - 0.65 * 0.5,
    });
    expect((100 * gamma.nonconforming).toFixed(1)).toBe("4.2");
    expect([(100 * found.consumer).toFixed(1), (100 * found.producer).toFixed(1)]).toEqual(["0.1", "7.5"]);
  });

  test.each(reference["other priors"].rows)(
    "prior N($mean, $sd²), u_m = $u, [$lower, $upper], w = $w",
    ({ mean, sd, u, lower, upper, w, consumer, producer }) => {
      const tolerance = limits(lower, upper);
      const found = globalRisk(normalDistribution(mean, sd), u, tolerance, acceptanceInterval(tolerance, alike(w)));
      // Ten panels or so of 1e-14 each, and SciPy's own 1e-16 a panel.
      expect(Math.abs(found.consumer - consumer)).toBeLessThan(2e-13);
      expect(Math.abs(found.producer - producer)).toBeLessThan(2e-13);
    },
  );

  test("nothing accepted: no consumer's risk, and every conforming item rejected", () => {
    const found = globalRisk(normalDistribution(0, 1), 0.5, limits(-1, 1), null);
    expect(found.consumer).toBe(0);
    // P(|Z| ≤ 1), SciPy: 0.6826894921370859.
    close(found.producer, 0.6826894921370859, 1e-13);
  });

  test("a discrete prior and a measurement without uncertainty are refused", () => {
    expect(() => globalRisk(normalDistribution(0, 1), 0, limits(-1, 1), null)).toThrow(
      /standardUncertainty: got 0; expected a finite number greater than 0/,
    );
    expect(() => globalRisk({ ...normalDistribution(0, 1), discrete: true }, 1, limits(-1, 1), null)).toThrow(
      /prior: .*continuous/,
    );
  });
});
