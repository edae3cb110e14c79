// The filed report of a record: that its figures are those of the record, rounded right, and that it needs nothing else.
import { recordDigest } from "../../../server/record/open.ts";
import { describe, expect, test } from "vitest";
import { speakRecord } from "../../../engine/index.ts";
import { decimalsFor, toDecimals } from "../../../engine/internal.ts";
import { en } from "../../../viewer/present/messages/en/index.ts";
import { languages, type Language } from "../../../viewer/present/messages/index.ts";
import { translated } from "../../../viewer/present/messages/phrases/index.ts";
import { reportHtml } from "../../../viewer/report/report-html.ts";
import { filedExample, textOf } from "./report-records.ts";
import type { ReportedRecord } from "../../../engine/index.ts";
import { LONG } from "../../setup/long.ts";

const command = "npx trialband verify record.json";
const written = (record: ReportedRecord, language: Language = "en"): string =>
  reportHtml(record, { messages: languages[language], command, digest: recordDigest(record) });

/** A figure as the English report prints it: thin spaces only in long whole parts, which these records lack. */
const printed = (value: number, decimals: number): string => toDecimals(value, decimals).replace("-", "\u2212");

/** A sentence as textOf finds it: a subscript stands where the underscore of a symbol was. */
const inPrint = (sentence: string): string => sentence.replaceAll(/(?<=[\p{L}\d])_/gu, "");

/** One of each: correlated, several measurands, second order, sensitivity, conformity, adaptive, very small, no deviation. */
const EXAMPLES = [
  "harrowfen/steriliser-134",
  "harrowfen/pasteuriser-72",
  "verdicts/curvature",
  "verdicts/few-readings",
  "published/impedance",
  "published/polar-010-correlated",
  "published/comparison-loss-10",
  "published/gauge-block",
  "published/thermometer-line",
] as const;

describe("figures", () => {
  test("a result is rounded as JCGM 100:2008, 7.2.6 asks: two digits of U, the estimate to the same place", () => {
    // JCGM 101:2008, table 2: y = 0.00, u(y) = 2.00, interval [−3.92, 3.92].
    const text = textOf(written(filedExample("published/additive-normal", { trials: 1_000_000 })));
    expect(text).toMatch(/=\u00a00\.0\u00a0±\u00a03\.9, where/);
    expect(text).toContain("[\u22123.920,\u00a03.920]");
  });

  test("JCGM 101:2008, 9.3: the linear budget's figures of the mass calibration", () => {
    // JCGM 101:2008, table 6: 1.2340 mg, u = 0.0539 mg, [1.1285, 1.3395] mg, not validated.
    const text = textOf(written(filedExample("published/mass-calibration")));
    for (const figure of ["1.2340", "0.0539", "[1.1285,\u00a01.3395]", "Linear budget: not validated"])
      expect(text).toContain(figure);
  });

  test.each(EXAMPLES)("%s: every figure that the methods are compared by stands in the report, to its place", (id) => {
    const record = filedExample(id);
    const text = textOf(written(record));
    const plain = text.replaceAll("\u202f", "");
    for (const { linear, monteCarlo, validation, unit } of Object.values(record.measurands)) {
      // Small figures may be printed in a unit with a power of ten, which then stands beside them.
      const powers = [0, 3, 6, 9, 12, 15].filter(
        (power) =>
          power === 0 ||
          text.includes(`10\u207b${[...String(power)].map((digit) => "⁰¹²³⁴⁵⁶⁷⁸⁹"[Number(digit)]).join("")}`),
      );
      const printedSomewhere = (value: number): boolean =>
        powers.some((power) => {
          const scaled = (of: number): number => of * Number(`1e${power}`);
          return plain.includes(
            printed(scaled(value), Math.max(0, decimalsFor(scaled(validation.numericalTolerance), 1) + 1)),
          );
        });
      const compared = monteCarlo.intervals[record.coverage.interval];
      const figures = [
        linear.standardUncertainty,
        linear.expandedUncertainty,
        ...linear.interval,
        ...compared,
        validation.dLow,
        validation.dHigh,
        validation.numericalTolerance,
        monteCarlo.standardUncertainty,
      ];
      for (const value of figures) if (value !== null) expect(printedSomewhere(value), `${value} ${unit}`).toBe(true);
    }
    for (const { symbol, source, meaning } of Object.values(record.inputs)) {
      expect(text).toContain(meaning);
      expect(text).toContain(symbol.split("_")[0]!);
      if (source !== null) expect(text).toContain(source);
    }
    for (const sentence of [
      ...record.remarks,
      ...record.cautions,
      ...Object.values(record.measurands).map(({ validation }) => validation.sentence),
    ])
      expect(text).toContain(inPrint(sentence));
    expect(text).toContain(record.seal.record);
    expect(text).toContain(command);
    expect(text).not.toMatch(/NaN|undefined|Infinity|\[object|\{\w+\}/);
  });

  // (U, estimate) as printed: by hand from the record's figures, JCGM 100:2008, 7.2.6.
  test.each([
    { u: 1e-4, U: 1.96e-4, estimate: 1e-4, shown: "(0.00010\u00a0±\u00a00.00020)\u00a0V" },
    { u: 4.9e-7, U: 9.6e-7, estimate: 3.9079e-3, shown: "(3.90790\u00a0±\u00a00.00096)\u00a0×\u00a010⁻³\u00a0V" },
    { u: 3.6e-9, U: 7.1e-9, estimate: -5.78e-7, shown: "(\u2212578.0\u00a0±\u00a07.1)\u00a0×\u00a010⁻⁹\u00a0V" },
    { u: 1e-4, U: 2e-4, estimate: 72.0052, shown: "(72.00520\u00a0±\u00a00.00020)\u00a0V" },
    { u: 2e6, U: 4.1e6, estimate: 3.2e8, shown: "(320.0\u00a0±\u00a04.1)\u00a0×\u00a010⁶\u00a0V" },
  ])("$estimate ± $U is printed as $shown", ({ u, U, estimate, shown }) => {
    const record = filedExample("published/additive-normal");
    const { y } = record.measurands;
    const linear = { ...y!.linear, estimate, standardUncertainty: u, expandedUncertainty: U };
    const validation = { ...y!.validation, significantDigits: 2, validated: true } as const;
    expect(textOf(written({ ...record, measurands: { y: { ...y!, unit: "V", linear, validation } } }))).toContain(
      shown,
    );
  });

  test("readings, half-widths, and U with its k stand as they were stated", () => {
    const text = textOf(written(filedExample("harrowfen/steriliser-134")));
    expect(text).toContain("151.3153, 151.3151, 151.3171");
    expect(text).toContain("half-width 0.0012\u00a0Ω");
    expect(text).toContain("U\u00a0=\u00a00.01\u00a0°C");
    expect(text).toContain("k\u00a0=\u00a02");
  });

  test("JCGM 100:2008, H.3.4: the curve at 30 °C, with its band about it", () => {
    const document = written(filedExample("published/thermometer-line"));
    // b(30 °C) = −0.1494 °C, u = 0.0041 °C; ± 1.96 u.
    const row = /<tr>(?:(?!<tr>).)*>30\.00<.*?<\/tr>/s.exec(
      document.slice(document.indexOf(en.sections.calibrationCurve)),
    )![0];
    const text = textOf(row);
    for (const figure of ["\u22120.1494", "0.00414", "[\u22120.1575,\u00a0\u22120.1413]"])
      expect(text).toContain(figure);
    expect(document.match(/<circle class="observed"/g)).toHaveLength(11);
  });

  test("a record filed before a model could declare a curve has no section on it", () => {
    const { calibrationCurve: _curve, ...older } = filedExample("published/thermometer-line");
    expect(written(older as ReportedRecord)).not.toContain(en.sections.calibrationCurve);
  });

  test("a list of many values is told by number, mean and standard deviation", () => {
    // 0, 1, 2 … 99: mean 49.5, standard deviation √(100·101/12) = 29.01.
    const values = Array.from({ length: 100 }, (_, i) => i);
    const record = filedExample("published/additive-normal");
    const inputs = { ...record.study.inputs, x1: { distribution: "sample", values } } as typeof record.study.inputs;
    const name = Object.keys(record.inputs)[0]!;
    const study = {
      ...record.study,
      inputs: { ...inputs, [name]: { distribution: "sample", values } as (typeof inputs)[string] },
    };
    const text = textOf(written({ ...record, study }));
    expect(text).toContain("100 values in all, mean 49.5");
    expect(text).toContain("standard deviation 29");
  });

  test("sections that a record has nothing for are left out, and those it has are numbered", () => {
    const without = written(filedExample("harrowfen/steriliser-134"));
    expect(without).not.toContain(en.sections.sensitivity);
    expect(without).not.toContain(en.sections.conformity);
    expect(written(filedExample("verdicts/curvature"))).toContain(en.sections.sensitivity);
    expect(written(filedExample("harrowfen/pasteuriser-72"))).toContain(en.sections.conformity);
    expect(written(filedExample("published/impedance"))).toContain(en.sections.joint);
    expect(written(filedExample("published/impedance"))).not.toContain(en.sections.calibrationCurve);
    expect(written(filedExample("published/thermometer-line"))).toContain(en.sections.calibrationCurve);
    const numbers = [...without.matchAll(/<h2><span class="number">(\d+)<\/span>/g)].map(([, number]) =>
      Number(number),
    );
    expect(numbers).toEqual(numbers.map((_, i) => i + 1));
  });

  test("the same record gives the same text", () => {
    const record = filedExample("verdicts/curvature");
    expect(written(record)).toBe(written(JSON.parse(JSON.stringify(record)) as ReportedRecord));
  });
});

describe("a document of its own", () => {
  test.each(EXAMPLES)("%s: no script, no reference to anything outside", (id) => {
    const document = written(filedExample(id));
    expect(document.startsWith('<!DOCTYPE html>\n<html lang="en">')).toBe(true);
    expect(document).not.toMatch(/<script|<link|<iframe|<object|<embed|<img|<base|@import|\son\w+=/i);
    expect(document).not.toMatch(/\b(src|href|action|data)\s*=\s*["']?\s*(https?:|\/\/|file:|data:)/i);
    // Within a style sheet only what the document itself holds.
    expect([...document.matchAll(/url\(([^)]*)\)/g)].every(([, target]) => target!.startsWith("#"))).toBe(true);
    expect(document).not.toContain("http");
    const ids = [...document.matchAll(/\sid="([^"]*)"/g)].map(([, found]) => found);
    expect(new Set(ids).size).toBe(ids.length);
  });

  test("hostile text stays text, in the body, in attributes and in the heads of pages", () => {
    const record = filedExample("harrowfen/steriliser-134");
    const bad = `</title></style><script>alert("x")</script>'\\"} @import url(http://x) <img src=x onerror=y>\u0000`;
    const quantity = { symbol: bad, meaning: bad, unit: bad };
    const hostile = {
      ...record,
      study: { ...record.study, title: bad, laboratory: bad, notes: bad, seed: bad },
      model: { ...record.model, id: bad, title: bad, equation: bad, source: bad },
      inputs: Object.fromEntries(
        Object.entries(record.inputs).map(([name, input]) => [
          name,
          { ...input, ...quantity, source: bad, distribution: bad },
        ]),
      ),
      measurands: Object.fromEntries(
        Object.entries(record.measurands).map(([, measurand]) => [`a" b${bad}`, { ...measurand, ...quantity }]),
      ),
      generator: { ...record.generator, seed: bad, title: bad },
      remarks: [bad],
      cautions: [bad],
      environment: { ...record.environment!, runtime: bad, startedAt: bad },
    } as ReportedRecord;
    const document = reportHtml(hostile, { messages: en, command: bad, digest: recordDigest(hostile) });
    expect(document).not.toMatch(/<script|<img|<\/style>(?!\s*<\/head>)|\u0000/);
    expect(document.match(/<style>/g)).toHaveLength(1);
    // One style element, closed once, with nothing of the text in it as it stood.
    const sheet = /<style>(.*?)<\/style>/s.exec(document)![1]!;
    expect(sheet).not.toContain("@import");
    expect(sheet).not.toContain("url(");
    expect(document).toContain("&lt;script&gt;");
    const tags = [...document.matchAll(/<(\w+)[^>]*>/g)].filter(([whole]) =>
      /\son\w+\s*=/i.test(whole.replace(/"[^"]*"/g, '""')),
    );
    expect(tags).toEqual([]);
  });
});

describe("languages", () => {
  type Leaf = readonly [string, string];
  const leaves = (value: object, path = ""): Leaf[] =>
    Object.entries(value).flatMap(([key, item]): Leaf[] =>
      typeof item === "string" ? [[`${path}${key}`, item]] : leaves(item as object, `${path}${key}.`),
    );
  const places = (text: string): string[] => [...text.matchAll(/\{\w+\}/g)].map(([place]) => place).toSorted();

  test.each(Object.keys(languages) as Language[])(
    "%s has every message of English, with the same places, and none besides",
    (language) => {
      const english = new Map(leaves(en));
      const other = new Map(leaves(languages[language]));
      expect([...other.keys()].toSorted()).toEqual([...english.keys()].toSorted());
      for (const [key, text] of other) {
        expect(text.trim().length > 0 || english.get(key)!.trim() === "", key).toBe(true);
        expect(places(text), key).toEqual(places(english.get(key)!));
      }
    },
  );

  test("German: decimal comma, semicolons between numbers, the cautions of the model", () => {
    const record = filedExample("harrowfen/steriliser-134");
    const document = written(record, "de");
    const text = textOf(document);
    expect(document).toContain('<html lang="de">');
    expect(text).toContain("151,3153; 151,3151; 151,3171");
    expect(text).toContain("95\u00a0%-Überdeckungsintervall");
    expect(text).toContain("4. März 2026");
    expect(text).toContain("Heiße Flüssigkeit verbrennt");
    // No decimal point is left in a number cell.
    const cells = [...document.matchAll(/<td class="number">([^<]*)/g)].map(([, cell]) => cell!);
    expect(cells.length).toBeGreaterThan(100);
    expect(cells.filter((cell) => /\d\.\d/.test(cell))).toEqual([]);
  });

  test.each(EXAMPLES)("%s in German has none of the record's English sentences", (id) => {
    const record = filedExample(id);
    const text = textOf(written(record, "de"));
    const carried = Object.values(record.measurands).flatMap(({ validation, explanation, conformity, sensitivity }) => [
      validation.sentence,
      explanation?.sentence,
      explanation?.recommendation.sentence,
      conformity?.sentence,
      sensitivity?.sentence,
    ]);
    const english = [...carried, ...record.remarks].filter((sentence) => sentence !== undefined);
    const german = speakRecord(record, "de");
    const spoken = [...Object.values(german.measurands).flatMap((topics) => Object.values(topics)), ...german.remarks];
    expect(english.length).toBeGreaterThan(2);
    for (const sentence of english.flatMap((whole) => whole.split(/(?<=\.) (?=[A-Z])/)))
      expect(text).not.toContain(inPrint(sentence));
    const bases = Object.values(record.measurands).flatMap(({ conformity }) => conformity?.tolerance.basis ?? []);
    for (const sentences of spoken) {
      if (sentences === null) continue;
      const words = bases.reduce((of, basis) => of.replace(basis, translated(basis, "de") ?? basis), sentences.text);
      expect(text).toContain(inPrint(words));
    }
  });

  /** Every text that the study itself states: the laboratory's own words, in whatever language it writes. */
  const stated = (value: unknown): string[] =>
    typeof value === "string"
      ? [value]
      : typeof value === "object" && value !== null
        ? Object.entries(value).flatMap(([key, item]) => [key, ...stated(item)])
        : [];

  test.each([
    ...EXAMPLES,
    "harrowfen/range",
    "harrowfen/freezer-minus-40",
    "published/end-gauge",
    "published/common-term-normal",
    "platinum/sprt-bath-72",
    "platinum/sprt-fixed-points-tin-zinc",
    "platinum/sprt-fixed-points-mercury-gallium",
    "platinum/probe-fit-hf-021",
    "platinum/two-wire-pasteuriser",
  ])("%s in German has no English but the study's own words", LONG, (id) => {
    const record = filedExample(id, (EXAMPLES as readonly string[]).includes(id) ? {} : { trials: 10_000 });
    const document = written(record, "de");
    expect([...document.matchAll(/lang="en">([^<]*)/g)].map(([, text]) => text)).toEqual([]);
    const own = stated(record.study).filter((text) => text.length > 3);
    const text = own
      .toSorted((a, b) => b.length - a.length)
      .reduce((rest, words) => rest.replaceAll(inPrint(words), " ").replaceAll(words, " "), textOf(document));
    // Words that no German sentence has and hardly any English one lacks.
    const english = [
      ...text.matchAll(/.{0,40}\b(?:the|The|of|and|is|are|with|from|by|its|this|that|which|than|for|or|to)\b.{0,40}/g),
    ].map(([found]) => found);
    expect(english).toEqual([]);
  });

  test.each(EXAMPLES)("%s in German has no place left open", (id) => {
    expect(textOf(written(filedExample(id), "de"))).not.toMatch(/NaN|undefined|\[object|\{\w+\}/);
  });
});
