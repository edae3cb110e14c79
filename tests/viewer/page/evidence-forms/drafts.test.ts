import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { certificateSchema, immersionSchema, readDocument, readingsSchema } from "../../../../models/index.ts";
import {
  certificateDocument,
  certificateFrom,
  emptyCertificate,
} from "../../../../viewer/page/evidence-forms/certificate-draft.ts";
import { immersionDocument, immersionFrom } from "../../../../viewer/page/evidence-forms/immersion-draft.ts";
import { isHeading, pastedCells } from "../../../../viewer/page/evidence-forms/grid.ts";
import {
  emptyReadings,
  readingsDocument,
  readingsFrom,
} from "../../../../viewer/page/evidence-forms/readings-draft.ts";
import { inKelvin, typedFrom, type SmallUnit } from "../../../../viewer/page/evidence-forms/units.ts";

const example = (name: string): Record<string, unknown> =>
  JSON.parse(readFileSync(new URL(`../../../../examples/survey/${name}.json`, import.meta.url), "utf8"));

describe.each(["mK", "K"] as const)("a description comes back from its form, differences in %s", (unit: SmallUnit) => {
  test("readings in a log", () => {
    const document = {
      ...example("readings-72"),
      significance: 0.01,
      history: { "HF-034": [{ standardDeviation: 0.0011, degreesOfFreedom: 9 }] },
    };
    expect(readingsDocument(readingsFrom(document, unit))).toEqual(document);
  });
  test("readings that were typed", () => {
    const document = {
      title: "Typed",
      reference: "S.1",
      channels: {
        "S.1": { unit: "Ω", its90: { subRange: "8", triplePointResistance: 25.5, coefficients: { a: -1e-4, b: 0 } } },
        X: { unit: "Ω", nominalResistance: 100, coefficients: { A: 3.9e-3, B: -5.8e-7 } },
      },
      rows: [
        { time: 0, readings: { "S.1": 29.3, X: 114.4 } },
        { time: 60, readings: { X: 114.5 } },
      ],
    };
    expect(readingsDocument(readingsFrom(document, unit))).toEqual(document);
    expect(() => readDocument(readingsSchema, document)).not.toThrow();
  });
  test("an immersion check, with and without a thermometer that stays", () => {
    const document = example("immersion-134");
    expect(immersionDocument(immersionFrom(document, unit))).toEqual(document);
    const beside = {
      ...document,
      depths: [1, 2, 3].map((k) => ({ depth: 100 * k, reading: 134 + k, reference: 134 })),
    };
    expect(immersionDocument(immersionFrom(beside, unit))).toEqual(beside);
    expect(() => readDocument(immersionSchema, beside)).not.toThrow();
  });
  test("a certificate, also if each point has its own k", () => {
    const document = example("reference-HR-02") as { points: { coverageFactor: number }[] };
    expect(certificateDocument(certificateFrom(document, unit))).toEqual(document);
    document.points[1]!.coverageFactor = 2.13;
    expect(certificateDocument(certificateFrom(document, unit))).toEqual(document);
    expect(() => readDocument(certificateSchema, document)).not.toThrow();
  });
});

describe("what is typed", () => {
  test("has a decimal comma, a true minus, and is kept as text if it is no number", () => {
    const draft = {
      ...emptyReadings("mK"),
      title: " Ours ",
      rows: [{ "at-0": "37,001", "at-1": "−0.5" }, {}, { "at-1": "abc" }],
    };
    expect(readingsDocument(draft)).toEqual({
      title: "Ours",
      reference: "Reference",
      channels: { Reference: { unit: "°C" }, Probe: { unit: "°C" } },
      rows: [{ readings: { Reference: 37.001, Probe: -0.5 } }, { readings: { Probe: "abc" } }],
    });
  });
  test("of errors becomes corrections, and a probability is read from per cent", () => {
    const draft = {
      ...emptyCertificate("mK"),
      sign: -1 as const,
      statedAs: "p" as const,
      factor: "95 %",
      points: [{ temperature: "37", correction: "12", uncertainty: "8,5" }],
    };
    expect(certificateDocument(draft)["points"]).toEqual([
      { temperature: 37, correction: -0.012, expandedUncertainty: 0.0085, coverageProbability: 0.95 },
    ]);
  });
  test.each([
    ["0,1", "mK", 1, 0.0001],
    ["0", "mK", -1, 0],
    ["4 mK", "mK", 1, "4 mK"],
    ["", "K", 1, undefined],
  ] as const)("%s in %s", (typed, unit, sign, kelvin) => expect(inKelvin(typed, unit, sign)).toBe(kelvin));
  test("a third of a kelvin survives the way to mK and back", () =>
    expect(inKelvin(typedFrom(0.333333333333, "mK"), "mK")).toBe(0.333333333333));
  test("cells are parted by tabs, or by semicolons; a line of words is a heading", () => {
    expect(pastedCells("a\tb\r\n1,5\t2\r\n\r\n")).toEqual([
      ["a", "b"],
      ["1,5", "2"],
    ]);
    expect(pastedCells("1,5;2\n")).toEqual([["1,5", "2"]]);
    expect(isHeading(["HR-02 / °C", ""])).toBe(true);
    expect(isHeading(["2026-03-02 08:00", "37.1"])).toBe(false);
    expect(isHeading(["−0,5"])).toBe(false);
  });
});
