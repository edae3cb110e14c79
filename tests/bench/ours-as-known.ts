import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { compareWithKnown, KNOWN_TRIALS } from "./harness/agreement.ts";
import { faultsOf } from "./harness/answer.ts";
import { BINS, openOurs, type Ours } from "./harness/ours.ts";

export const root = join(import.meta.dirname, "../..");
export const WORKLOADS = ["W1", "W2", "W3", "W6"] as const;

/** Our runs of these workloads agree with the known figures. @returns what runs them, once the tests run */
export function oursAsKnown(workloads: readonly (typeof WORKLOADS)[number][]): () => Ours {
  let ours: Ours;
  beforeAll(async () => {
    ours = await openOurs(root, 1);
  });
  afterAll(() => ours.close());

  // Known figures are those of NumPy over 1000 runs of as many trials (workloads/figures.py).
  test.each(workloads)("%s by ours, within five standard errors of the known figures", async (workload) => {
    const answer = await ours.run(workload, KNOWN_TRIALS, 3);
    expect(faultsOf(answer)).toEqual([]);
    expect(answer.outputs.every(({ histogram }) => histogram.counts.length === BINS)).toBe(true);
    const compared = compareWithKnown(answer);
    expect(compared).toHaveLength(answer.outputs.length * 6 + (answer.outputs.length > 1 ? 1 : 0));
    expect(compared.filter(({ agrees }) => !agrees)).toEqual([]);
  });
  return () => ours;
}
