import {
  COLUMN_WIDTHS,
  KEPT_TRIALS,
  MOMENTS_ROW,
  type Batch,
  type CondensedBatches,
  type CondensedMeasurand,
  type Prepared,
} from "../../engine/internal.ts";
import { FAULTS } from "../errors.ts";
import { decode } from "./codec.ts";
import type { Answer, Job } from "./messages.ts";

type Range = Pick<Job, "first" | "counts">;
type Drawing = Pick<Prepared, "model" | "source">;

/**
 * What a worker has answered to a job. What does not add up to the job's trials is none: it was damaged, or comes from
 * somebody who does not draw. That it is wrong in a way that adds up nobody can see but by drawing it again.
 *
 * @returns `null` for what is no answer to this job
 */
export function readAnswer(bytes: Uint8Array, job: Range, prepared: Drawing): Answer | null {
  try {
    const answer = decode(bytes) as Answer;
    if (!answer.ok)
      return Object.hasOwn(FAULTS, answer.report.code) &&
        typeof answer.report.message === "string" &&
        Array.isArray(answer.report.problems)
        ? answer
        : null;
    return answer.seconds >= 0 && addsUp(answer, job, prepared) ? answer : null;
  } catch {
    return null;
  }
}

function addsUp(
  { kept, condensed }: Extract<Answer, { ok: true }>,
  { first, counts }: Range,
  prepared: Drawing,
): boolean {
  let end = first;
  const keeping = counts.findIndex((count) => (end += count) > KEPT_TRIALS);
  const [own, others] = keeping < 0 ? [counts, []] : [counts.slice(0, keeping), counts.slice(keeping)];
  if (kept.length !== own.length) return false;
  let at = first;
  const fits = kept.every((batch, i) => {
    const isNext = keptFits(batch, at, own[i]!, prepared);
    at += own[i]!;
    return isNext;
  });
  if (!fits) return false;
  // Each by itself where the run may end after any, and otherwise all together.
  const groups = prepared.source.settling ? others.map((count) => [count]) : others.length === 0 ? [] : [others];
  if (condensed.length !== groups.length) return false;
  return condensed.every((batches, i) => {
    const isNext = condensedFits(batches, at, groups[i]!, prepared);
    at += sumOf(groups[i]!);
    return isNext;
  });
}

function keptFits(
  { first, count, leftOut, measurands, joint }: Batch,
  at: number,
  wanted: number,
  { model }: Drawing,
): boolean {
  const { length } = Object.keys(model.measurands);
  return (
    first === at &&
    count === wanted &&
    leftOut >= 0 &&
    measurands.length === length &&
    (joint === null) === (length === 1) &&
    measurands.every(
      ({ values, moments: { count: of, mean, m2 }, grid, counted }) =>
        of === count &&
        Number.isFinite(mean) &&
        m2 >= 0 &&
        hasNumbers(values, count) &&
        gridFits(grid) &&
        counted === undefined,
    )
  );
}

function condensedFits(
  { first, counts, leftOut, measurands, joint }: CondensedBatches,
  at: number,
  wanted: readonly number[],
  { model }: Drawing,
): boolean {
  const { length } = Object.keys(model.measurands);
  return (
    first === at &&
    counts.length === wanted.length &&
    counts.every((count, i) => count === wanted[i]) &&
    leftOut.length === wanted.length &&
    leftOut.every((left) => left >= 0) &&
    measurands.length === length &&
    (joint === null ? length === 1 : length > 1 && joint.length === wanted.length) &&
    measurands.every((part) => partFits(part, wanted))
  );
}

function partFits(
  { grid, counted, moments, intervals, paired }: CondensedMeasurand,
  counts: readonly number[],
): boolean {
  const batches = counts.length;
  if (!gridFits(grid) || countedIn(counted) !== sumOf(counts)) return false;
  if (!hasNumbers(moments, batches * MOMENTS_ROW) || !hasNumbers(intervals, 2 * batches)) return false;
  for (let i = 1; i < moments.length; i += MOMENTS_ROW) if (!(moments[i]! >= 0)) return false;
  if (paired === null) return true;
  const { columns } = paired;
  return (
    (["moments", "parts", "distances"] as const).every((name) =>
      hasNumbers(columns[name], batches * COLUMN_WIDTHS[name]),
    ) &&
    columns.ends.length === 2 &&
    columns.ends.every(({ below, cells }) => below >= 0 && hasNumbers(cells, COLUMN_WIDTHS.distances / 2))
  );
}

/** Whether it is an array of so many finite numbers. */
function hasNumbers(array: Float64Array, length: number): boolean {
  if (!(array instanceof Float64Array) || array.length !== length) return false;
  // By index: iterators make an object for each of the millions of numbers.
  for (let i = 0; i < length; i++) if (!Number.isFinite(array[i]!)) return false;
  return true;
}

const gridFits = ({ bins, low, width, density }: Batch["measurands"][number]["grid"]): boolean =>
  [bins, low, width, density].every(Number.isFinite);

/** How many trials were counted; `NaN` if the counts do not add up to what they are said to be. */
function countedIn({ grid, counts, below, above, count }: CondensedMeasurand["counted"]): number {
  if (counts.length !== grid.bins) return Number.NaN;
  const sum = [counts, ...below.map(([, page]) => page), ...above.map(([, page]) => page)].reduce(
    (all, list) => all + countsIn(list),
    0,
  );
  return sum === count ? sum : Number.NaN;
}

/** The sum of an array of counts; `NaN` if one of them is none. */
function countsIn(list: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < list.length; i++) {
    const one = list[i]!;
    if (!(one >= 0)) return Number.NaN;
    sum += one;
  }
  return sum;
}

const sumOf = (counts: readonly number[]): number => counts.reduce((sum, count) => sum + count, 0);
