// Digital calibration certificates: the printed figures, read back by our own reader, valid by the open schema.
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { Readable } from "node:stream";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import type { RunRecord } from "../../../../engine/index.ts";
import { certificateFromDsi } from "../../../../models/index.ts";
import { Fault } from "../../../../server/errors.ts";
import { dccOf } from "../../../../server/export/certificate/dcc.ts";
import { certificateJson } from "../../../../server/export/certificate/json.ts";
import { readDsi } from "../../../../server/intake/d-si.ts";
import { certificateFrom, documentWith, FIELDS, ITEM, REFERENCE } from "./made-certificate.ts";

const full = certificateFrom(documentWith());
const read = (document: string) => readDsi({ name: "certificate.xml", chunks: Readable.from([Buffer.from(document)]) });

/** The record with the interval of the trials to be reported at one point. */
const withInterval = (record: RunRecord): RunRecord => ({
  ...record,
  measurands: {
    ...record.measurands,
    error_p2: {
      ...record.measurands["error_p2"]!,
      explanation: { recommendation: { action: "report-monte-carlo", factor: null } },
    } as unknown as RunRecord["measurands"][string],
  },
});

describe("read back by the reader of certificates", () => {
  test("item, number, day, temperatures, errors, U and k are those that are printed", async () => {
    const { certificate } = certificateFromDsi(await read(dccOf(full, REFERENCE)));
    expect(certificate).toMatchObject({ thermometer: "HF-021", certificate: ITEM.number, calibrated: "2026-03-04" });
    expect(certificate.points).toEqual(
      full.points.map(({ temperature, error, uncertainty }) => {
        if (uncertainty.kind !== "expanded") throw new Error("expected an expanded uncertainty");
        return {
          temperature: temperature.value,
          correction: -error.value,
          expandedUncertainty: uncertainty.U.value,
          coverageFactor: uncertainty.k.value,
        };
      }),
    );
    // `joint-calibration.json`: error and u of the third bath, U = k·u rounded to two digits.
    expect(certificate.points[2]).toMatchObject({ correction: 0.21, expandedUncertainty: 0.03 });
  });

  test("coefficients, their standard uncertainties and correlations at full precision", async () => {
    const { quantities } = await read(dccOf(full, REFERENCE));
    const named = (part: string) => quantities.find(({ names }) => names[0]!.startsWith(part))!.forms[0]!;
    for (const { name, estimate, standardUncertainty } of full.fit!.coefficients)
      expect(named(`Coefficient ${name}`)[0]).toMatchObject({
        value: estimate,
        uncertainty: { kind: "standard", standard: standardUncertainty },
      });
    const [[, rA, rB], [, , AB]] = full.fit!.correlation as [number[], number[]];
    expect(named("Correlation coefficients").map(({ value }) => value)).toEqual([rA, rB, AB]);
  });

  test("a point whose interval is stated keeps interval and standard uncertainty", async () => {
    const certificate = certificateFrom(documentWith(), withInterval);
    const { quantities } = await read(dccOf(certificate, REFERENCE));
    const errors = quantities.find(({ refType }) => refType === "basic_measurementError")!.forms[0]!;
    expect(errors.map(({ uncertainty }) => uncertainty!.kind)).toEqual([
      "expanded",
      "interval",
      "expanded",
      "expanded",
      "expanded",
    ]);
    const { uncertainty } = certificate.points[1]!;
    if (uncertainty.kind !== "interval") throw new Error("expected an interval");
    expect(errors[1]!.uncertainty).toMatchObject({ lower: uncertainty.low.value, upper: uncertainty.high.value });
  });

  test("the JSON has the same figures", () => {
    const json = JSON.parse(certificateJson(full, REFERENCE)) as {
      draft: boolean;
      points: { error: number; expandedUncertainty: number }[];
    };
    expect(json.draft).toBe(false);
    expect(json.points.map(({ error }) => error)).toEqual(full.points.map(({ error }) => error.value));
  });
});

test("a draft has none, and everything that it lacks is named by its place", () => {
  const { email: _, ...laboratory } = FIELDS.laboratory;
  const { issued: __, ...fields } = FIELDS;
  const draft = certificateFrom(documentWith({ certificate: { ...fields, laboratory } }));
  try {
    dccOf(draft, REFERENCE);
    expect.unreachable();
  } catch (error) {
    expect((error as Fault).problems!.map(({ place }) => place)).toEqual([
      "certificate.laboratory.email",
      "certificate.issued",
    ]);
  }
});

const SCHEMAS = fileURLToPath(new URL("../../../../../shared/schemas/", import.meta.url));
const hasSchema = existsSync(`${SCHEMAS}dcc-3.1.2.xsd`) && spawnSync("xmllint", ["--version"]).status === 0;
if (!hasSchema) console.warn("skipped: the DCC is not validated, for want of ../shared/schemas or xmllint");

describe.skipIf(!hasSchema)("by the open schema, DCC 3.1.2", () => {
  const validate = (document: string) =>
    spawnSync("xmllint", ["--nonet", "--noout", "--schema", `${SCHEMAS}dcc-3.1.2.xsd`, "-"], {
      input: document,
      encoding: "utf8",
      env: { ...process.env, XML_CATALOG_FILES: `${SCHEMAS}catalog.xml` },
    });
  const { sampling: _, external: __, opinions: ___, fromCustomer: ____, nextCalibration: _____, ...fewer } = FIELDS;
  const { replaces: r, type: t, received: d, before: b, ...item } = ITEM;
  void [r, t, d, b];
  const hostile = { ...FIELDS, opinions: "a < b &amp; ]]> \u0001" };

  test.each([
    ["with every field", dccOf(full, REFERENCE)],
    ["with required fields alone", dccOf(certificateFrom(documentWith({ certificate: fewer }, item)), null)],
    ["with an interval at a point", dccOf(certificateFrom(documentWith(), withInterval), REFERENCE)],
    ["with hostile words", dccOf(certificateFrom(documentWith({ certificate: hostile })), REFERENCE)],
  ])("%s", (_name, document) => {
    expect(validate(document)).toMatchObject({ status: 0, stderr: expect.stringContaining("validates") });
  });

  test("a document without its number is not valid", () => {
    const document = dccOf(full, REFERENCE).replace(/<dcc:uniqueIdentifier>.*?<\/dcc:uniqueIdentifier>/, "");
    expect(validate(document).status).not.toBe(0);
  });
});
