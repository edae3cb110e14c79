import { KEPT_TRIALS, type Batch, type Prepared } from "../../engine/internal.ts";
import { FAULTS } from "../errors.ts";
import { decode } from "./codec.ts";
import type { Answer, Job } from "./messages.ts";

type MeasurandBatch = Batch["measurands"][number];
type Counted = NonNullable<MeasurandBatch["counted"]>;

/**
 * What a worker has answered to a job. What does not add up to the job's trials is none: it was damaged, or comes from
 * somebody who does not draw. That it is wrong in a way that adds up nobody can see but by drawing it again.
 *
 * @returns `null` for what is no answer to this job
 */
export function readAnswer(
  bytes: Uint8Array,
  job: Pick<Job, "first" | "counts">,
  prepared: Pick<Prepared, "model" | "source">,
): Answer | null {
  try {
    const answer = decode(bytes) as Answer;
    if (!answer.ok)
      return Object.hasOwn(FAULTS, answer.report.code) &&
        typeof answer.report.message === "string" &&
        Array.isArray(answer.report.problems)
        ? answer
        : null;
    return answer.seconds >= 0 && addsUp(answer.batches, job, prepared) ? answer : null;
  } catch {
    return null;
  }
}

function addsUp(
  batches: readonly Batch[],
  { first, counts }: Pick<Job, "first" | "counts">,
  { model, source }: Pick<Prepared, "model" | "source">,
): boolean {
  const { length } = Object.keys(model.measurands);
  if (batches.length !== counts.length) return false;
  /** Trials that are not kept: the first of their batches has counted all, or each its own. */
  let counted = 0;
  let at = first;
  for (const count of counts) {
    at += count;
    if (at > KEPT_TRIALS) counted += count;
  }
  at = first;
  return batches.every((batch, i) => {
    const { count } = batch;
    const kept = at + count <= KEPT_TRIALS;
    const expected = kept ? 0 : source.settling ? count : counted;
    if (!kept) counted = 0;
    const fits =
      batch.first === at &&
      count === counts[i] &&
      batch.leftOut >= 0 &&
      batch.measurands.length === length &&
      (batch.joint === null) === (length === 1) &&
      batch.measurands.every((part) => partFits(part, count, kept, expected));
    at += count;
    return fits;
  });
}

/** @param expected trials that it has counted */
function partFits(part: MeasurandBatch, count: number, kept: boolean, expected: number): boolean {
  const { values, moments, grid, counted } = part;
  if (moments.count !== count || !Number.isFinite(moments.mean) || !(moments.m2 >= 0)) return false;
  if (!(values instanceof Float64Array) || values.length !== (kept ? count : 0)) return false;
  for (const value of values) if (!Number.isFinite(value)) return false;
  if (![grid.bins, grid.low, grid.width, grid.density].every(Number.isFinite)) return false;
  return expected === 0 ? counted === undefined : counted !== undefined && countedIn(counted) === expected;
}

/** How many trials were counted; `NaN` if the counts do not add up to what they are said to be. */
function countedIn({ counts, below, above, count }: Counted): number {
  let sum = 0;
  for (const list of [counts, ...below.map(([, page]) => page), ...above.map(([, page]) => page)])
    for (const one of list) {
      if (!(one >= 0)) return Number.NaN;
      sum += one;
    }
  return sum === count ? sum : Number.NaN;
}
