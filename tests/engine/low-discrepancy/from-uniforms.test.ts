// Inputs drawn by inversion: each must have its own distribution, and correlated ones the dependence of the random draws.
import { describe, expect, test } from "vitest";
import { dependenceOf } from "../../../engine/dependence/dependence.ts";
import type { Group } from "../../../engine/dependence/group.ts";
import { type Statement } from "../../../engine/index.ts";
import { readStatement } from "../../../engine/internal.ts";
import { blockGenerator } from "../../../engine/random/block-generator.ts";
import { BLOCK_TRIALS } from "../../../engine/random/block.ts";
import { correlation, distanceFromUniform, distanceLimit } from "./scrambled.ts";

const BLOCKS = 8;
const N = BLOCKS * BLOCK_TRIALS;

function groupOf(statements: Record<string, Statement>, correlations: Parameters<typeof dependenceOf>[3]): Group {
  const knowledge = Object.fromEntries(
    Object.entries(statements).map(([name, statement]) => [name, readStatement(statement, name)]),
  );
  const { groups } = dependenceOf(Object.keys(statements), knowledge, statements, correlations);
  expect(groups).toHaveLength(1);
  return groups[0]!;
}

/** Draws by inversion of independent uniform numbers, one stream a dimension. */
function draws({ members, dimensions, fromUniforms }: Group): Float64Array[] {
  const columns = members.map(() => new Float64Array(N));
  const streams = Array.from({ length: dimensions }, (_, j) => blockGenerator.open("from uniforms", `dimension ${j}`));
  for (let block = 0; block < BLOCKS; block++) {
    const uniforms = streams.map((stream) => {
      const u = new Float64Array(BLOCK_TRIALS);
      stream(block).uniforms(0, u, BLOCK_TRIALS);
      return u;
    });
    const first = block * BLOCK_TRIALS;
    fromUniforms(
      uniforms,
      columns.map((column) => column.subarray(first, first + BLOCK_TRIALS)),
      BLOCK_TRIALS,
    );
  }
  return columns;
}

const normal = (estimate: number, standardUncertainty: number): Statement => ({
  distribution: "normal",
  estimate,
  standardUncertainty,
});
const t = (estimate: number, standardUncertainty: number): Statement => ({
  distribution: "t",
  estimate,
  standardUncertainty,
  degreesOfFreedom: 7,
});
const rectangular = (estimate: number, halfWidth: number): Statement => ({
  distribution: "rectangular",
  estimate,
  halfWidth,
});
const between = (a: string, b: string, coefficient: number) => ({
  between: [a, b] as [string, string],
  coefficient,
  refersTo: "values" as const,
});

const A = [0.2, 0.5, -0.4, 0.1, 0.9, -0.3];
const B = [1.2, 1.9, 0.4, 1.1, 1.7, 0.8];

describe.each([
  { kind: "multivariate normal", dimensions: 2, statements: { a: normal(3, 0.5), b: normal(-1, 2) }, r: 0.8 },
  { kind: "multivariate t", dimensions: 3, statements: { a: t(3, 0.5), b: t(-1, 2) }, r: -0.6 },
  { kind: "Gaussian copula", dimensions: 2, statements: { a: normal(3, 0.5), b: rectangular(-1, 2) }, r: 0.7 },
])("$kind", ({ kind, dimensions, statements, r }) => {
  const group = groupOf(statements, [between("a", "b", r)]);
  const columns = draws(group);

  test("its dimensions, and its members' distributions", () => {
    expect(group.kind).toBe(kind);
    expect(group.dimensions).toBe(dimensions);
    group.distributions.forEach(({ distributionFunction }, i) =>
      expect(distanceFromUniform(columns[i]!.map((x) => distributionFunction(x)))).toBeLessThan(distanceLimit(N)),
    );
  });

  test("its correlation of values", () => {
    // Standard error of a sample correlation: (1 − r²)/√n for normals, √(1 + κ) times as much where the joint excess
    // kurtosis parameter is κ = 2/(ν − 4) (elliptical t; R. J. Muirhead 1982, 5.1.4); a copula's lies between.
    const error = ((1 - r * r) * (kind === "multivariate t" ? Math.sqrt(1 + 2 / 3) : 1)) / Math.sqrt(N);
    expect(Math.abs(correlation(columns[0]!, columns[1]!) - r)).toBeLessThan(5 * error);
  });
});

test("readings made together: t with ν = n − N and one χ² for both (JCGM 102:2011, 5.3.2)", () => {
  const group = groupOf({ a: { distribution: "readings", values: A }, b: { distribution: "readings", values: B } }, [
    { between: ["a", "b"], coefficient: "readings", refersTo: "values" },
  ]);
  expect(group.dimensions).toBe(3);
  const columns = draws(group);
  group.distributions.forEach(({ distributionFunction }, i) =>
    expect(distanceFromUniform(columns[i]!.map((x) => distributionFunction(x)))).toBeLessThan(distanceLimit(N)),
  );
  // Far deviations come together, whatever the correlation: both beyond ±1.5 scales far more often than normals would.
  const half = [0.5, 0.5];
  const one = [[half[0]!], [half[1]!], [1e-3]].map((u) => Float64Array.from(u));
  const out = [new Float64Array(1), new Float64Array(1)];
  one[0]![0] = 0.9;
  group.fromUniforms(one, out, 1);
  const near = Float64Array.from(out.map((x) => x[0]!));
  one[2]![0] = 1 - 1e-3;
  group.fromUniforms(one, out, 1);
  group.distributions.forEach(({ mean }, i) =>
    expect(Math.abs(near[i]! - mean!)).toBeGreaterThan(5 * Math.abs(out[i]![0]! - mean!)),
  );
});

describe("a lone input", () => {
  test("takes one number, and gives its quantile", () => {
    const group = groupOf({ a: rectangular(1, 2) }, []);
    const out = [new Float64Array(3)];
    group.fromUniforms([Float64Array.of(0.25, 0.5, 0.75)], out, 3);
    expect(group.dimensions).toBe(1);
    expect(out[0]).toEqual(Float64Array.of(0, 1, 2));
  });

  test("takes none if it is constant", () => {
    const group = groupOf({ a: { distribution: "constant", value: 100 } }, []);
    const out = [new Float64Array(3)];
    group.fromUniforms([], out, 2);
    expect(group.dimensions).toBe(0);
    expect(out[0]).toEqual(Float64Array.of(100, 100, 0));
  });
});
