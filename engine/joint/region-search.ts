import { spannedRanks } from "../coverage/coverage-interval.ts";
import { haveBytes, JOINT, summariesOfThread, type Summaries } from "../statistics/kernel/summaries.ts";
import { limitsOfRank, select, selectOfMany, type RankLimits } from "../statistics/select.ts";
import { measureByKernel, measurePlainly, weightsOf, type Measure, type Stretch } from "./measure.ts";
import { PairGridCounter } from "./pair-grid.ts";

/** Trials that go through the module at a time: their columns stay in a core's second cache. */
const STRETCH = 2500;
const STRIDE = 8 * (STRETCH + 4);
/** Fewer trials than this are searched by the plain loops. */
const MANY = 20_000;
/** Trials that a value is first looked for among. */
const SAMPLE = 2048;

/** Trials by batch: one array per measurand each. */
type Trials = readonly (readonly Float64Array[])[];

const countOf = (trials: Trials): number => trials.reduce((sum, [column]) => sum + column!.length, 0);

/**
 * The value of each measure that a share p of the trials do not exceed (JCGM 102, 7.7), and pairs counted in their meshes.
 *
 * @param grids by the places of their two measurands
 */
export function searchRegions(
  trials: Trials,
  measures: readonly Measure[],
  probability: number,
  grids: readonly { readonly pair: readonly [number, number]; readonly grid: PairGridCounter }[] = [],
): number[] {
  const rank = Math.max(1, spannedRanks(countOf(trials), probability));
  const kernel = countOf(trials) < MANY ? null : summariesOfThread();
  if (kernel !== null) return searchByKernel(kernel, trials, measures, rank, grids);
  for (const { pair, grid } of grids) for (const columns of trials) grid.add(columns[pair[0]]!, columns[pair[1]]!);
  return measures.map((measure) => searchPlainly(trials, measure, rank));
}

function searchPlainly(trials: Trials, measure: Measure, rank: number): number {
  const figures = new Float64Array(countOf(trials));
  let at = 0;
  for (const columns of trials) {
    const size = columns[0]!.length;
    measurePlainly(measure, columns, figures.subarray(at, at + size));
    at += size;
  }
  return selectOfMany(figures, rank);
}

/** What is searched for one measure: the figures between two limits that its value lies between. */
interface Search {
  readonly measure: Measure;
  readonly weights: number;
  readonly limits: RankLimits;
  readonly between: Float64Array;
  below: number;
  found: number;
}

/** A stretch of all columns at a time goes through every measure: no figure is kept but those near the value. */
function searchByKernel(
  kernel: Summaries,
  trials: Trials,
  measures: readonly Measure[],
  rank: number,
  grids: Parameters<typeof searchRegions>[3] & object,
): number[] {
  const count = countOf(trials);
  const m = trials[0]!.length;
  const own = JOINT + m * STRIDE;
  const figures = own + m * STRIDE;
  const between = figures + STRIDE;
  const meshes = between + STRIDE;
  const weights = meshes + grids.length * PairGridCounter.BYTES;
  const end = weights + measures.reduce((sum, measure) => sum + 8 * weightsOf(measure).length, 0);
  haveBytes(kernel, end);
  const { buffer } = kernel.memory;
  const array = (from: number): Float64Array => new Float64Array(buffer, from, STRETCH + 4);
  const columns = trials[0]!.map((_, i) => array(JOINT + i * STRIDE));
  const [figuresArray, betweenArray, word] = [array(figures), array(between), new Int32Array(buffer, 0, 1)];
  const sample = sampleOf(trials, count);
  let nextWeights = weights;
  const searches = measures.map((measure): Search => {
    const rows = weightsOf(measure);
    const at = nextWeights;
    new Float64Array(buffer, at, rows.length).set(rows);
    nextWeights += 8 * rows.length;
    const figuresOfSample = new Float64Array(SAMPLE);
    measurePlainly(measure, sample, figuresOfSample);
    const limits = limitsOfRank(figuresOfSample, rank, count);
    return { measure, weights: at, limits, between: new Float64Array(limits.room + STRETCH), below: 0, found: 0 };
  });
  grids.forEach(({ grid }, i) => grid.open(buffer, meshes + i * PairGridCounter.BYTES));
  const stretch = (batch: readonly Float64Array[], from: number, size: number): void => {
    for (let i = 0; i < m; i++) columns[i]!.set(batch[i]!.subarray(from, from + size));
    for (const search of searches) {
      const place: Stretch = { columns: JOINT, own, stride: STRIDE, figures, figuresArray, weights: search.weights };
      measureByKernel(kernel, search.measure, place, size);
      const { limits } = search;
      search.below += kernel.gather(figures, size, limits.low, limits.high, between);
      const found = (word[0]! - between) / 8;
      if (search.found <= limits.room) search.between.set(betweenArray.subarray(0, found), search.found);
      search.found += found;
    }
    for (const { pair, grid } of grids)
      grid.addByKernel(kernel, JOINT + pair[0] * STRIDE, JOINT + pair[1] * STRIDE, size);
  };
  for (const batch of trials) {
    const size = batch[0]!.length;
    // The module takes trials in twos; an odd one, which only ends a run, is counted here.
    const even = size - (size % 2);
    for (let from = 0; from < even; from += STRETCH) stretch(batch, from, Math.min(STRETCH, even - from));
    if (even < size)
      addOne(
        searches,
        grids,
        batch.map((column) => column.subarray(even)),
      );
  }
  for (const { grid } of grids) grid.close();
  return searches.map((search) => valueOf(search, trials, rank));
}

function addOne(
  searches: readonly Search[],
  grids: Parameters<typeof searchRegions>[3] & object,
  columns: readonly Float64Array[],
): void {
  const figure = new Float64Array(1);
  for (const search of searches) {
    measurePlainly(search.measure, columns, figure);
    if (figure[0]! < search.limits.low) search.below += 1;
    else if (figure[0]! <= search.limits.high) {
      if (search.found <= search.limits.room) search.between[search.found] = figure[0]!;
      search.found += 1;
    }
  }
  for (const { pair, grid } of grids) grid.add(columns[pair[0]]!, columns[pair[1]]!);
}

/** The limits may miss the value, or too many lie between them, where trials are not in random order: search all of them. */
function valueOf({ measure, limits, between, below, found }: Search, trials: Trials, rank: number): number {
  if (rank <= below || rank > below + found || found > limits.room) return searchPlainly(trials, measure, rank);
  return select(between, rank - below, 0, found);
}

/** Trials from all over, at equal distances. */
function sampleOf(trials: Trials, count: number): Float64Array[] {
  const sample = trials[0]!.map(() => new Float64Array(SAMPLE));
  let [batch, before] = [0, 0];
  for (let k = 0; k < SAMPLE; k++) {
    const t = Math.floor((k * count) / SAMPLE);
    while (t - before >= trials[batch]![0]!.length) before += trials[batch++]![0]!.length;
    for (let i = 0; i < sample.length; i++) sample[i]![k] = trials[batch]![i]![t - before]!;
  }
  return sample;
}
