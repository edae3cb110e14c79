import { expect, test } from "vitest";
import type { Evidence } from "../../../engine/index.ts";
import { migrate } from "../../../engine/record/index.ts";
import { openDocument } from "../../../server/record/open.ts";
import { recordText, sealRecord, type SealedRecord } from "../../../server/record/seal.ts";
import { readExample, runExample } from "../../read-example.ts";
import format1 from "./format-1.json" with { type: "json" };

const evidence: Evidence = {
  method: "m",
  files: [{ name: "log.csv", sha256: "0".repeat(64) }],
  figures: [{ name: "half-range", value: 0.02, unit: "K" }],
};
const environment = { startedAt: "2026-03-02T08:00:00.000Z", seconds: 1, workers: 1, runtime: "Node.js" };

function filed(): SealedRecord {
  const { inputs } = readExample("harrowfen/steriliser-134") as unknown as { inputs: Record<string, object> };
  const record = runExample("harrowfen/steriliser-134", {
    inputs: { ...inputs, bathAxial: { ...inputs["bathAxial"], evidence } },
    trials: 4000,
  });
  return JSON.parse(recordText(sealRecord({ ...record, environment }, null))) as SealedRecord;
}

test("a filed record keeps evidence and bath, and its schema knows them", () => {
  const record = filed();
  expect(() => openDocument(record, "r.json")).not.toThrow();
  expect(record.inputs["bathAxial"]!.evidence).toEqual(evidence);
  expect(record.study.bath).toMatchObject({ fluid: "silicone-20" });
});

test("evidence is under the seal, and a record without the field is none", () => {
  const record = filed();
  const changed = {
    ...record,
    inputs: {
      ...record.inputs,
      bathAxial: { ...record.inputs["bathAxial"]!, evidence: { ...evidence, method: "other" } },
    },
  };
  expect(sealRecord(changed, null).seal.results).not.toBe(record.seal.results);
  const { evidence: _, ...bare } = record.inputs["bathAxial"]!;
  const without = { ...record, inputs: { ...record.inputs, bathAxial: bare } };
  expect(() => openDocument(without, "r.json")).toThrowError(
    expect.objectContaining({
      problems: [expect.objectContaining({ place: "inputs.bathAxial.evidence", value: "nothing" })],
    }) as Error,
  );
});

test("inputs of format 1 had no evidence", () => {
  const { record } = migrate(format1)!;
  const inputs = Object.values(record["inputs"] as Record<string, { evidence: unknown }>);
  expect(inputs.length).toBeGreaterThan(0);
  expect(inputs.every((input) => input.evidence === null)).toBe(true);
});
