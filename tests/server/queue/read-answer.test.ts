// What a worker answers is held against its job before it is added.
import { describe, expect, test } from "vitest";
import { KEPT_TRIALS, openCondensed, prepare, type Prepared } from "../../../engine/internal.ts";
import { encode } from "../../../server/queue/codec.ts";
import { readAnswer } from "../../../server/queue/read-answer.ts";
import { loadStudyDocument } from "../../../server/shelves/study.ts";
import { readExample } from "../../read-example.ts";

/** An answer that can be altered. */
interface Loose {
  batches: { first: number; count: number; measurands: LoosePart[] }[];
}
interface LoosePart {
  moments: { count: number; mean: number };
  values: Float64Array;
  counted: { counts: Float64Array; count: number };
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
  const batches = openCondensed(prepared.source)(job.first, counts, () => false);
  return { prepared, job, answer: { ok: true, batches, seconds: 1 } as unknown as Loose };
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
    // Of a further batch, whose shape is written already.
    const bytes = ({ answer }: Drawn): number => {
      const batch = answer.batches[1]!;
      return encode([batch, batch]).length - encode([batch]).length;
    };
    const [kept, summed] = [bytes(await drawn(...ONE, 0, 2)), bytes(await drawn(...ONE, LAST + 2, 2))];
    // Moments, interval and paired sums; values and their places.
    expect(summed / 1000).toBeCloseTo(8.5, 0);
    expect((kept - summed) / 1000).toBeCloseTo(88, 0);
  });

  const part = (answer: Loose, batch = 0): LoosePart => answer.batches[batch]!.measurands[0]!;
  test.each<[string, number, (answer: Loose) => unknown]>([
    ["to another range", 0, (answer) => (answer.batches[0]!.first = 10_000)],
    ["with a trial more", 0, (answer) => (answer.batches[1]!.count += 1)],
    ["without a batch", 0, (answer) => answer.batches.pop()],
    ["without a measurand", 0, (answer) => (answer.batches[0]!.measurands = [])],
    ["with another's moments", 0, (answer) => (part(answer).moments.count = 9999)],
    ["with a mean that is no number", 0, (answer) => (part(answer).moments.mean = Number.NaN)],
    ["with a value less", 0, (answer) => (part(answer).values = part(answer).values.slice(1))],
    ["with a value that is no number", 0, (answer) => (part(answer).values[7] = Number.NaN)],
    ["counted where it is kept", 0, (answer) => (part(answer).counted = { counts: new Float64Array(3), count: 0 })],
    ["with a count more", LAST + 2, (answer) => (part(answer).counted.counts[500]! += 1)],
    ["with a count below 0", LAST + 2, (answer) => (part(answer).counted.counts[500]! -= 1e6)],
    [
      "with a count of too many",
      LAST + 2,
      (answer) => {
        part(answer).counted.counts[500]! += 1;
        part(answer).counted.count += 1;
      },
    ],
    ["counted twice", LAST + 2, (answer) => (part(answer, 1).counted = part(answer).counted)],
    ["without a grid", LAST + 2, (answer) => delete part(answer).grid],
    ["with words in place of batches", 0, (answer) => Object.assign(answer, { batches: "ten" })],
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
