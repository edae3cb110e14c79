import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { propagate, type Model, readStudy } from "../engine/index.ts";
import { schemaProblems } from "../engine/internal.ts";
import { shownRecordSchema } from "../engine/record/index.ts";
import checkWeight from "../examples/density/density.ts";
import { exampleStudies, modelOf } from "./read-example.ts";

/**
 * Every figure of every example's record, bit for bit, under the path it stands at. A change that moves code and mends
 * words leaves this file as it is; one that changes figures writes it anew (TRIALBAND_WRITE_FIGURES=1) and raises the
 * version.
 */
const FILED = join(import.meta.dirname, "examples-figures.json");
const TRIALS = 20_000;

const studies = exampleStudies();

/** Numbers below a value, each as its path and its bits. */
function* figures(value: unknown, path: string): Generator<string> {
  if (typeof value === "number") {
    const bits = new DataView(new ArrayBuffer(8));
    bits.setFloat64(0, value);
    yield `${path} ${bits.getBigUint64(0).toString(16)}`;
  } else if (typeof value === "object" && value !== null) {
    for (const key of Object.keys(value).toSorted())
      yield* figures((value as Record<string, unknown>)[key], `${path}/${key}`);
  }
}

/** A digest for each part of a record, so that a failure names the part. */
function digests(document: { model: string }): Record<string, string> {
  const model: Model = document.model.endsWith(".ts") ? (checkWeight as Model) : modelOf(document);
  const record = propagate(model, readStudy({ ...document, trials: TRIALS }));
  // Every part, conformity and sensitivity too, follows the one schema of a record.
  const read = shownRecordSchema.safeParse(record);
  expect(read.success ? [] : schemaProblems(read.error, record)).toEqual([]);
  const parts: Record<string, unknown> = {
    inputs: record.inputs,
    joint: record.joint,
    calibrationCurve: record.calibrationCurve,
    sweep: record.sweep,
  };
  for (const [name, measurand] of Object.entries(record.measurands)) {
    for (const part of [
      "linear",
      "linearised",
      "monteCarlo",
      "validation",
      "paired",
      "secondOrder",
      "explanation",
      "conformity",
      "sensitivity",
    ] as const) {
      parts[`measurands.${name}.${part}`] = measurand[part];
    }
  }
  return Object.fromEntries(
    Object.entries(parts)
      .filter(([, part]) => part !== null && part !== undefined)
      .map(([name, part]) => [
        name,
        createHash("sha256")
          .update([...figures(part, "")].join("\n"))
          .digest("hex")
          .slice(0, 16),
      ]),
  );
}

const write = process.env["TRIALBAND_WRITE_FIGURES"] === "1";
const filed = write ? {} : (JSON.parse(readFileSync(FILED, "utf8")) as Record<string, Record<string, string>>);

describe("every figure of every example, bit for bit", () => {
  test("no example is missing from the file", () => {
    if (!write) expect(Object.keys(filed)).toEqual(studies.map(({ name }) => name));
  });

  test.each(studies)("$name", ({ name, document }) => {
    const found = digests(document);
    if (write) {
      filed[name] = found;
      writeFileSync(FILED, `${JSON.stringify(filed, null, 2)}\n`);
    } else expect(found).toEqual(filed[name]);
  });
});
