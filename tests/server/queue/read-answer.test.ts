// What a worker answers is held against its job before it is added.
import { describe, expect, test } from "vitest";
import { KEPT_TRIALS, openCondensed, prepare, type Prepared } from "../../../engine/internal.ts";
import { encode } from "../../../server/queue/codec.ts";
import { readAnswer } from "../../../server/queue/read-answer.ts";
import { loadStudyDocument } from "../../../server/shelves/study.ts";
import { readExample } from "../../read-example.ts";

/** An answer that can be altered. */
interface Loose {
  kept: { first: number; count: number; measurands: LoosePart[] }[];
  condensed: { first: number; counts: number[]; leftOut: number[]; measurands: LooseColumns[] }[];
}
interface LoosePart {
  moments: { count: number; mean: number };
  values: Float64Array;
  counted: unknown;
}
interface LooseColumns {
  counted: { counts: Float64Array; count: number };
  moments: Float64Array;
  intervals: Float64Array;
  paired: { columns: { distances: Float64Array; parts: Float64Array; ends: { below: number }[] } };
  grid?: unknown;
}

interface Drawn {
  readonly prepared: Prepared;
  readonly job: { readonly first: number; readonly counts: readonly number[] };
  readonly answer: Loose;
}

/** An honest answer to a job of these batches. */
async function drawn(id: string, changes: object, first: number, length: number): Promise<Drawn> {
  const { model, study } = await loadStudyDocument({ ...readExample(id), ...changes }, null);
  const prepared = prepare(model, study);
  const counts = Array.from({ length }, () => prepared.batch);
  const job = { first: first * prepared.batch, counts };
  const trials = openCondensed(prepared.source)(job.first, counts, () => false);
  return { prepared, job, answer: { ok: true, ...trials, seconds: 1 } as unknown as Loose };
}

const ONE = ["verdicts/another-factor", { trials: 4_000_000 }] as const;
/** An equation that is not defined below 0, which a thousandth of the trials are. */
const LEFT_OUT = {
  model: "equation",
  parameters: { equation: "y = sqrt(a)", quantities: {} },
  inputs: { a: { distribution: "normal", estimate: 3, standardUncertainty: 1 } },
  undefinedTrials: "leave-out",
  trials: 50_000,
};
const LAST = KEPT_TRIALS / 10_000 - 1;

describe("an answer", () => {
  test.each([
    ["of trials that are kept", ...ONE, 0, 2],
    ["of trials that are counted", ...ONE, LAST + 2, 2],
    ["of the last that are kept and the first that are counted", ...ONE, LAST, 3],
    ["of an adaptive run", ONE[0], { trials: "adaptive" }, LAST, 3],
    ["of trials of which some were left out", ONE[0], LEFT_OUT, 0, 2],
    ["of several measurands", "published/impedance", { trials: 3_000_000 }, LAST, 2],
  ] as const)("%s is taken", async (_what, id, changes, first, batches) => {
    const { prepared, job, answer } = await drawn(id, changes, first, batches);
    expect(readAnswer(encode(answer), job, prepared)).not.toBeNull();
  });

  test("has the bytes that DEVELOPERS states", async () => {
    const bytes = async (first: number, batches: number): Promise<number> =>
      encode((await drawn(...ONE, first, batches)).answer).length;
    // Values and their places, moments, interval and paired sums of a further batch, whose shape is written already.
    expect(((await bytes(0, 3)) - (await bytes(0, 2))) / 1000).toBeCloseTo(96.6, 0);
    // The distances of paired sums, moments and interval; the counts of a job, a byte each.
    const counted = await bytes(LAST + 2, 100);
    const further = (await bytes(LAST + 2, 101)) - counted;
    expect(further / 1000).toBeCloseTo(4.3, 0);
    expect((counted - 100 * further) / 1000).toBeCloseTo(134, -1);
  });

  const part = (answer: Loose, batch = 0): LoosePart => answer.kept[batch]!.measurands[0]!;
  const columns = (answer: Loose): LooseColumns => answer.condensed[0]!.measurands[0]!;
  test.each<[string, number, (answer: Loose) => unknown]>([
    ["to another range", 0, (answer) => (answer.kept[0]!.first = 10_000)],
    ["to another range, counted", LAST + 2, (answer) => (answer.condensed[0]!.first = 10_000)],
    ["with a trial more", 0, (answer) => (answer.kept[1]!.count += 1)],
    ["without a batch", 0, (answer) => answer.kept.pop()],
    ["without a counted batch", LAST + 2, (answer) => answer.condensed[0]!.counts.pop()],
    ["without what is counted", LAST + 2, (answer) => answer.condensed.pop()],
    ["without a measurand", 0, (answer) => (answer.kept[0]!.measurands = [])],
    ["without a measurand, counted", LAST + 2, (answer) => (answer.condensed[0]!.measurands = [])],
    ["with another's moments", 0, (answer) => (part(answer).moments.count = 9999)],
    ["with a mean that is no number", 0, (answer) => (part(answer).moments.mean = Number.NaN)],
    ["with moments of a batch less", LAST + 2, (answer) => (columns(answer).moments = new Float64Array(5))],
    ["with a sum of squares below 0", LAST + 2, (answer) => (columns(answer).moments[1] = -1)],
    ["with an endpoint that is no number", LAST + 2, (answer) => (columns(answer).intervals[3] = Number.NaN)],
    ["with a value less", 0, (answer) => (part(answer).values = part(answer).values.slice(1))],
    ["with a value that is no number", 0, (answer) => (part(answer).values[7] = Number.NaN)],
    ["counted where it is kept", 0, (answer) => (part(answer).counted = { counts: new Float64Array(3), count: 0 })],
    ["with a count more", LAST + 2, (answer) => (columns(answer).counted.counts[500]! += 1)],
    ["with a count below 0", LAST + 2, (answer) => (columns(answer).counted.counts[500]! -= 1e6)],
    ["without counts", LAST + 2, (answer) => (columns(answer).counted.counts = new Float64Array(0))],
    [
      "with a count of too many",
      LAST + 2,
      (answer) => {
        columns(answer).counted.counts[500]! += 1;
        columns(answer).counted.count += 1;
      },
    ],
    ["counted twice", LAST + 2, (answer) => answer.condensed.push(answer.condensed[0]!)],
    ["without a grid", LAST + 2, (answer) => delete columns(answer).grid],
    ["with trials left out of fewer batches", LAST + 2, (answer) => answer.condensed[0]!.leftOut.pop()],
    [
      "with paired sums of a batch less",
      LAST + 2,
      ({ condensed: [one] }) => (one!.measurands[0]!.paired.columns.distances = new Float64Array(512)),
    ],
    [
      "with a paired sum that is no number",
      LAST + 2,
      (answer) => (columns(answer).paired.columns.parts[3] = Number.POSITIVE_INFINITY),
    ],
    [
      "with fewer than no trials below an endpoint",
      LAST + 2,
      (answer) => (columns(answer).paired.columns.ends[1]!.below = -1),
    ],
    ["with words in place of batches", 0, (answer) => Object.assign(answer, { kept: "ten" })],
    [
      "that is a fault without words",
      0,
      (answer) => Object.assign(answer, { ok: false, report: { code: "internal" } }),
    ],
    [
      "that is a fault of no kind",
      0,
      (answer) => Object.assign(answer, { ok: false, report: { code: "toString", message: "m", problems: [] } }),
    ],
  ])("%s is none", async (_what, first, alter) => {
    const { prepared, job, answer } = await drawn(...ONE, first, 2);
    alter(answer);
    expect(readAnswer(encode(answer), job, prepared)).toBeNull();
  });
});
