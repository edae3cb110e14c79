import { deserialize, serialize } from "node:v8";
import { describe, expect, test } from "vitest";
import { prepare, readStudy, type RunRecord } from "../../../engine/index.ts";
import { Accumulation, assembleRecord, openTrials } from "../../../engine/internal.ts";
import { modelOf, readExample } from "../../read-example.ts";
import { LONG } from "../../setup/long.ts";

/**
 * Runs a study. After each of `cuts` trials only the state survives, as it would come from a file.
 */
function runOf(id: string, changes: Record<string, unknown>, cuts: readonly number[]): RunRecord {
  const document = { ...readExample(id), ...changes };
  const prepared = prepare(modelOf(document), readStudy(document));
  let draw = openTrials(prepared.source);
  let gathered = new Accumulation(prepared);
  const left = [...cuts];
  for (let count = gathered.next; count > 0; count = gathered.next) {
    gathered.add(draw(gathered.trials, count));
    if (left[0] === undefined || gathered.trials < left[0]) continue;
    left.shift();
    gathered = new Accumulation(prepared, undefined, structuredClone(gathered.state));
    draw = openTrials(prepared.source);
  }
  expect(left).toEqual([]);
  return assembleRecord(prepared, gathered, false);
}

describe("a run that goes on from a state ends with the record of one that was never interrupted, bit for bit", () => {
  test.each([
    ["an adaptive run", "verdicts/kept", { trials: "adaptive" }, [10_000, 30_000]],
    ["a fixed number of trials, cut short in its last batch", "harrowfen/cold-store-4", { trials: 77_777 }, [70_000]],
    ["a shortest interval", "verdicts/curvature", { coverage: { probability: 0.95, interval: "shortest" } }, [60_000]],
    ["several measurands", "published/polar-010", { trials: 100_000 }, [20_000, 50_000]],
    [
      "the settling of several measurands",
      "published/polar-010",
      { trials: "adaptive", maximumTrials: 150_000 },
      [20_000],
    ],
  ] as const)("%s: %s", (_, id, changes, cuts) => {
    expect(runOf(id, changes, cuts)).toEqual(runOf(id, changes, []));
  });

  test("more trials than are kept, before and after keeping ends", LONG, () => {
    const [id, changes] = ["published/polar-010", { trials: 2_400_000 }] as const;
    expect(runOf(id, changes, [1_990_000, 2_000_000, 2_200_000])).toEqual(runOf(id, changes, []));
  });

  test("a state does not change as the run goes on", LONG, () => {
    const document = { ...readExample("published/polar-010"), trials: 2_200_000 };
    const prepared = prepare(modelOf(document), readStudy(document));
    const draw = openTrials(prepared.source);
    const gathered = new Accumulation(prepared);
    while (gathered.trials < 2_100_000) gathered.add(draw(gathered.trials, gathered.next));
    const { state } = gathered;
    const before = serialize(state);
    while (gathered.next > 0) gathered.add(draw(gathered.trials, gathered.next));
    // By value: how a number is held in memory, and so its serialised bytes, may change.
    expect(state).toEqual(deserialize(before));
  });
});
