// Results in D-SI: valid by the open schema, where it lies beside the project, and read back to the same figures.
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { Readable } from "node:stream";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import type { ReportedRecord, RunRecord } from "../../../engine/index.ts";
import { Fault } from "../../../server/errors.ts";
import { dsiOf } from "../../../server/export/d-si.ts";
import { readDsi } from "../../../server/intake/d-si.ts";
import { runExample } from "../../read-example.ts";

const TRIALS = { trials: 10_000 };
const IDS = ["published/end-gauge", "published/impedance", "harrowfen/steriliser-134", "published/mass-calibration"];
const made = new Map<string, RunRecord>();
const recordOf = (id: string): RunRecord => {
  const record = made.get(id) ?? runExample(id, TRIALS);
  made.set(id, record);
  return record;
};

const read = async (document: string) =>
  (await readDsi({ name: "results.xml", chunks: Readable.from([Buffer.from(document)]) })).quantities;

describe("read back", () => {
  test.each(IDS)("%s: every figure is the record's", async (id) => {
    const record = recordOf(id);
    const quantities = await read(dsiOf(record));
    expect(quantities).toHaveLength(Object.keys(record.measurands).length);
    Object.values(record.measurands).forEach(({ linear, monteCarlo, meaning }, i) => {
      const { names, forms } = quantities[i]!;
      expect(names[0]).toContain(meaning);
      const [budget, ...others] = forms[0]!;
      expect(budget).toMatchObject({
        value: linear.estimate,
        uncertainty: {
          kind: "expanded",
          expanded: linear.expandedUncertainty,
          coverageFactor: linear.coverageFactor,
          coverageProbability: monteCarlo.probability,
        },
      });
      // Readings of three quantities together leave two degrees of freedom: no standard deviation, and no interval here.
      if (monteCarlo.standardUncertainty === null) {
        expect(others.some(({ label }) => label!.includes("Monte Carlo (JCGM"))).toBe(false);
        return;
      }
      for (const kind of ["symmetric", "shortest"] as const) {
        const trials = others.find(({ label }) => label!.includes(kind))!;
        const [lower, upper] = monteCarlo.intervals[kind];
        expect(trials).toMatchObject({
          value: monteCarlo.estimate,
          uncertainty: {
            kind: "interval",
            standard: monteCarlo.standardUncertainty,
            lower,
            upper,
            coverageProbability: monteCarlo.probability,
          },
        });
      }
      expect(forms[0]!.filter(({ label }) => label!.includes("to be reported")).length).toBeLessThanOrEqual(1);
    });
  });

  test("the distribution of a budget with few degrees of freedom is t, and the label names the record", async () => {
    const document = dsiOf(recordOf("published/end-gauge"));
    const [length] = await read(document);
    expect(length!.forms[0]![0]!.uncertainty!.distribution).toMatch(/^Student t, 1\d\.\d+ degrees of freedom$/);
    expect(document).toMatch(/<si:label>[^<]*; record of trialband [\d.]+, SHA-256 [0-9a-f]{64}<\/si:label>/);
  });
});

const changed = (change: (record: RunRecord) => unknown): ReportedRecord =>
  change(structuredClone(recordOf("published/end-gauge"))) as ReportedRecord;
const measurandOf = (record: RunRecord) => Object.entries(record.measurands)[0]!;

describe("what D-SI cannot state", () => {
  test("a unit outside the SI is refused by its place and name", () => {
    const record = changed((whole) => {
      const [name, measurand] = measurandOf(whole);
      return { ...whole, measurands: { [name]: { ...measurand, unit: "div" } } };
    });
    expect(() => dsiOf(record)).toThrow(Fault);
    try {
      dsiOf(record);
    } catch (error) {
      expect((error as Fault).problems).toMatchObject([
        { place: expect.stringMatching(/^measurands\..*\.unit$/), value: "div" },
      ]);
    }
  });

  test("without a standard deviation of the trials the budget alone is stated; a k below 1 becomes u", async () => {
    const record = changed((whole) => {
      const [name, measurand] = measurandOf(whole);
      return {
        ...whole,
        measurands: {
          [name]: {
            ...measurand,
            linear: { ...measurand.linear, coverageFactor: 0.5 },
            monteCarlo: { ...measurand.monteCarlo, standardUncertainty: null },
          },
        },
      };
    });
    const [quantity] = await read(dsiOf(record));
    const labels = quantity!.forms[0]!.map(({ label }) => label);
    expect(labels.some((label) => label!.includes("Monte Carlo (JCGM"))).toBe(false);
    expect(quantity!.forms[0]![0]!.uncertainty).toMatchObject({ kind: "standard" });
  });
});

const SCHEMAS = fileURLToPath(new URL("../../../../shared/schemas/", import.meta.url));
const hasSchema = existsSync(`${SCHEMAS}SI_Format-2.2.0.xsd`) && spawnSync("xmllint", ["--version"]).status === 0;
if (!hasSchema) console.warn("skipped: D-SI is not validated, for want of ../shared/schemas or xmllint");

describe.skipIf(!hasSchema)("by the open schema, D-SI 2.2.0", () => {
  const validate = (document: string) =>
    spawnSync("xmllint", ["--nonet", "--noout", "--schema", `${SCHEMAS}SI_Format-2.2.0.xsd`, "-"], {
      input: document,
      encoding: "utf8",
      env: { ...process.env, XML_CATALOG_FILES: `${SCHEMAS}catalog.xml` },
    });

  test("results of the examples are valid, with hostile words too", () => {
    const documents = IDS.map((id) => dsiOf(recordOf(id)));
    const hostile = changed((whole) => ({ ...whole, study: { ...whole.study, title: "a < b &amp; ]]> \u0001" } }));
    for (const document of [...documents, dsiOf(hostile)])
      expect(validate(document)).toMatchObject({ status: 0, stderr: expect.stringContaining("validates") });
  });

  test("a document with a figure missing is not", () => {
    const document = dsiOf(recordOf("published/end-gauge")).replace(/<si:coverageFactor>.*?<\/si:coverageFactor>/, "");
    expect(validate(document).status).not.toBe(0);
  });
});
