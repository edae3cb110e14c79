// Regions by WebAssembly in one pass, and by the plain loops, trial by trial: identical, bit for bit.
import { expect, test } from "vitest";
import { coMomentsOf, covarianceMatrix } from "../../../engine/joint/co-moments.ts";
import { deviationMeasure, distanceMeasure, measurePlainly } from "../../../engine/joint/measure.ts";
import { PairGridCounter } from "../../../engine/joint/pair-grid.ts";
import { searchRegions } from "../../../engine/joint/region-search.ts";
import { LONG } from "../../setup/long.ts";

/** Batches of dependent measurands: of each, `noise` of its own. */
function trialsOf(
  m: number,
  sizes: readonly number[],
  noise: (u: () => number, t: number) => number,
): Float64Array[][] {
  let state = 7;
  const u = (): number => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32;
  let t = 0;
  return sizes.map((size) => {
    const columns = Array.from({ length: m }, () => new Float64Array(size));
    for (let k = 0; k < size; k++, t++) {
      const shared = noise(u, t);
      columns.forEach((column, i) => (column[k] = 100 * i + shared + (i + 1) * noise(u, t)));
    }
    return columns;
  });
}

const rounded = (u: () => number): number => Math.floor(5 * u());
const usual = (u: () => number): number => u() + u() + u() - 1.5;
const drifting = (u: () => number, t: number): number => u() * (1 + t / 1000);

type Case = readonly [string, number, readonly number[], (u: () => number, t: number) => number];
const CASES: readonly Case[] = [
  ["two measurands", 2, [10_000, 10_000, 10_000], usual],
  ["three, and an odd last batch", 3, [10_000, 10_000, 3333], usual],
  ["five, and one trial more", 5, [20_000, 20_000, 1], usual],
  ["few different values", 3, [10_000, 10_000, 10_000], rounded],
  ["trials that drift", 3, [10_000, 10_000, 10_000], drifting],
  ["fewer trials than the module is asked for", 3, [9999], usual],
];
const findsThem = (...[, m, sizes, noise]: Case): void => {
  const trials = trialsOf(m, sizes, noise);
  const whole = Array.from({ length: m }, (__, i) => Float64Array.from(trials.flatMap((batch) => [...batch[i]!])));
  const moments = coMomentsOf(whole);
  const covariance = covarianceMatrix(moments);
  const { means } = moments;
  const meshOf = () =>
    new PairGridCounter([means[0]!, means[1]!], [Math.sqrt(covariance[0]![0]!), Math.sqrt(covariance[1]![1]!)]);
  const measures = [
    distanceMeasure(
      means,
      covariance,
      means.map((__, i) => i),
    )!,
    deviationMeasure(means, covariance),
    distanceMeasure(means, covariance, [0, m - 1])!,
  ];
  for (const probability of [0.5, 0.95, 0.9999]) {
    const grid = meshOf();
    const found = searchRegions(trials, measures, probability, [{ pair: [0, 1], grid }]);
    const plain = measures.map((measure) => {
      const figures = new Float64Array(whole[0]!.length);
      measurePlainly(measure, whole, figures);
      // q is pM, or the integer part of pM + 1/2 (JCGM 101, 7.7.1).
      return figures.toSorted()[Math.floor(probability * figures.length + 0.5) - 1];
    });
    expect(found).toEqual(plain);
    const mesh = meshOf();
    mesh.add(whole[0]!, whole[1]!);
    expect(grid.result(probability)).toEqual(mesh.result(probability));
  }
};
test.each(CASES)("%s", findsThem);
test("sixty measurands", LONG, () => findsThem("", 60, [20_000], usual));
