// What each room of the terminal writes, from small values whose figures are known.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import pico from "picocolors";
import { describe, expect, test } from "vitest";
import { compareGenerators } from "../../../engine/internal.ts";
import { evaluateCertificate, evaluateReadings, type Certificate, type Indication } from "../../../models/index.ts";
import { ENGLISH } from "../../../viewer/present/statement.ts";
import { certificatePoints } from "../../../viewer/present/tables/certificate.ts";
import { certificateAtLines, certificateLines, validityLines } from "../../../viewer/terminal/certificate-lines.ts";
import { generatorSummary } from "../../../viewer/terminal/generator-summary.ts";
import { checkPart, listPart, milli, part, plain, tablePart, type Layout } from "../../../viewer/terminal/lines.ts";
import { presentedLines } from "../../../viewer/terminal/presented.ts";
import { probeLines } from "../../../viewer/terminal/readings-lines.ts";
import { statementPart } from "../../../viewer/terminal/statement-lines.ts";
import { stylesFor, widthOf } from "../../../viewer/terminal/style.ts";
import { displayWidth, tableLines, wrap } from "../../../viewer/terminal/table.ts";
import { runExample } from "../../read-example.ts";

const layout: Layout = { styles: pico.createColors(false), width: 60 };
const text = (lines: readonly string[]): string => lines.join("\n");

describe("tables", () => {
  const columns = [
    { heading: "name", align: "left" },
    { heading: "value", align: "point" },
  ] as const;

  test("numbers stand on their decimal signs, words on the left", () => {
    expect(
      tableLines(columns, [
        ["a", "1.25"],
        ["bcdefg", "\u221210"],
        ["c", "> 100.5"],
      ]),
    ).toEqual(["name       value", "a           1.25", "bcdefg    \u221210", "c       > 100.5"]);
  });

  test.each([
    ["words are broken before a table leaves its width", ["one two three four", "1"], 16],
    ["wide characters take two columns", ["温度温度 温度", "12.5"], 16],
  ])("%s", (_, row, width) => {
    for (const line of tableLines(columns, [row], width)) expect(displayWidth(line)).toBeLessThanOrEqual(width);
  });

  test("a presented table leaves out what is fine", () => {
    const lines = presentedLines(
      {
        caption: "c",
        columns: [
          { head: "x", kind: "head" },
          { head: "kept", kind: "number" },
          { head: "fine", kind: "number", fine: true },
        ],
        rows: [
          { head: "a", note: "n", cells: ["1", "2"] },
          { head: "b", fine: true, cells: ["3", "4"] },
        ],
        total: [{ head: "sum", cells: [{ text: "5", note: "± 1" }, "6"] }],
      },
      60,
    );
    expect(lines.map((line) => line.trim().split(/\s{2,}/)[0])).toEqual(["x", "a (n)", "sum"]);
    expect(text(lines)).not.toMatch(/fine|[2346]/);
    expect(text(lines)).toContain("5 ± 1");
  });
});

describe("parts", () => {
  test.each<[string, () => readonly string[], readonly string[]]>([
    ["a heading over indented lines", () => part(layout, "Head", ["one"]), ["", "Head", "   one"]],
    ["none without lines", () => part(layout, "Head", []), []],
    ["sentences as a list", () => listPart(layout, "Head", ["one", "two"]), ["", "Head", "   - one", "   - two"]],
    ["no table without rows", () => tablePart(layout, "Head", [["a", "left"]], []), []],
    [
      "what failed stands first, what is said twice once",
      () =>
        checkPart(layout, [
          { check: "a", passed: true, found: "1" },
          { check: "b", passed: false, found: "2" },
          { check: "a", passed: true, found: "1" },
        ]),
      ["", "Checks", "   NOT MET  b: 2", "   met      a: 1"],
    ],
  ])("%s", (_, lines, expected) => {
    expect(lines()).toEqual(expected);
  });

  test("long sentences are broken and indented", () => {
    const lines = listPart(layout, "Head", ["word ".repeat(30).trim()]);
    expect(lines.length).toBeGreaterThan(3);
    for (const line of lines) expect(displayWidth(line)).toBeLessThanOrEqual(layout.width);
    expect(lines[3]).toMatch(/^ {5}word/);
    expect(wrap("a b c", 3, "  ")).toBe("a b\n  c");
  });

  test("a number keeps its groups and its unit together: no-break spaces stay", () => {
    expect(wrap("of  10\u202f000\u00a0mK", 8)).toBe("of\n10\u202f000\u00a0mK");
    expect(wrap("ten words of 10\u202f000\u00a0mK", 14, "  ")).toBe("ten words of\n  10\u202f000\u00a0mK");
  });

  test("figures of a difference and of a number", () => {
    expect([milli(-0.0045678), plain(12.345678), plain(72, 9)]).toEqual(["\u22124.568", "12.35", "72"]);
  });
});

const document = JSON.parse(
  readFileSync(join(import.meta.dirname, "../../../examples/survey/reference-HR-02.json"), "utf8"),
) as Certificate;
const file = { name: "c.json", sha256: "a".repeat(64) };

describe("a certificate", () => {
  test("is shown with points in order of temperature, its history and its file", () => {
    const lines = text(certificateLines({ certificate: document, reasoning: [], file }, { ...layout, width: 100 }));
    expect(lines).toContain("Certificate HCR-2025-118 of HR-02, calibrated 2025-09-15");
    expect(lines).toContain(`c.json  SHA-256 ${file.sha256}`);
    const temperatures = [...lines.matchAll(/^ {3}(\S+) +\S+ +\S+ +U, k = 2 +∞$/gm)].map(([, at]) => at);
    expect(temperatures).toEqual(["\u221240", "4", "72", "134"]);
    expect(lines).toMatch(/2023-09-12 +3\.000 +1\.000/);
    expect(lines).not.toMatch(/Infinity|undefined|NaN/);
  });

  test.each([
    [{ standardUncertainty: 0.002, expandedUncertainty: undefined }, "u", "2.000"],
    [{ expandedUncertainty: 0.008, coverageFactor: 2 }, "U, k = 2", "8.000"],
    [{ expandedUncertainty: 0.008, coverageProbability: 0.95, coverageFactor: undefined }, "U, p = 95\u00a0%", "8.000"],
  ])("a point says what its uncertainty is: %j", (stated, words, figure) => {
    const points = [{ temperature: 20, correction: 0, ...stated }] as unknown as Certificate["points"];
    const [row] = certificatePoints({ points }, ENGLISH).rows;
    expect(row!.cells.slice(1, 3)).toEqual([figure, words]);
  });

  test("at a temperature it has correction, drift and age; the age alone without one", () => {
    const evaluation = evaluateCertificate(document, 72, "2026-03-02", undefined);
    const at = text(certificateAtLines(evaluation, { ...layout, width: 100 }));
    expect(at).toContain("At 72\u00a0°C on 2026-03-02");
    // From 15 September 2025 to 2 March 2026: 15 + 31 + 30 + 31 + 31 + 28 + 2 days.
    expect(at).toContain("168 days since the calibration; the next is due on 2026-09-15");
    const alone = text(validityLines(evaluation.validity, layout));
    expect(alone).toContain("On 2026-03-02");
    expect(alone).not.toContain("correction");
  });
});

test("readings: cycle by cycle, with their mean", () => {
  // The probe reads 10, 11 and 12 mK more than a reference that stands still.
  const indications = [0, 1, 2].flatMap((i): Indication[] => [
    { time: 60 * i, channel: "R", value: 20 },
    { time: 60 * i + 10, channel: "X", value: 20.01 + 0.001 * i },
    { time: 60 * i + 20, channel: "R", value: 20 },
  ]);
  const [probe] = evaluateReadings(
    { title: "t", reference: "R", channels: { R: { unit: "°C" }, X: { unit: "°C" } } } as never,
    indications,
  );
  const lines = text(probeLines(probe!, { ...layout, width: 100 }));
  expect(lines).toContain("X against R: differences cycle by cycle");
  expect([...lines.matchAll(/^ {3}\d +.* (1\d\.000) +/gm)].map(([, value]) => value)).toEqual([
    "10.000",
    "11.000",
    "12.000",
  ]);
  // Their mean is 11 mK, s = 1 mK, u = 1/√3 mK.
  expect(lines).toMatch(/X +11\.000 +1\.000 +0\.577 +2/);
});

test("input quantities: half-width and u in mK, beside what a study states", () => {
  const rectangular = (halfWidth: number) => ({ distribution: "rectangular", estimate: 0, halfWidth }) as const;
  const now = { inputs: { drift: rectangular(0.003) }, name: "s.json" };
  const alone = text(statementPart(layout, { drift: rectangular(0.004) }, { drift: "°C" }, null));
  // 4/√3 mK.
  expect(alone).toMatch(/drift +rectangular +0 °C +4\.000 +2\.309 +mK/);
  const beside = text(statementPart({ ...layout, width: 120 }, { drift: rectangular(0.004) }, { drift: "°C" }, now));
  expect(beside).toContain("beside what s.json states now");
  expect(beside).toMatch(/rectangular +3\.000 +1\.732 +\+1\.000/);
  const none = text(
    statementPart({ ...layout, width: 120 }, { drift: rectangular(0.004) }, { drift: "°C" }, { ...now, inputs: {} }),
  );
  expect(none).toContain("nothing");
});

test("two generators: every figure of both, and whether they agree", () => {
  const run = (generator: string) => runExample("published/additive-normal", { trials: 20_000, generator });
  const compared = compareGenerators(run("sfc32x4-philox"), run("sfc32x4-philox"));
  expect(generatorSummary(compared)).toContain("The two agree: no difference exceeds");
  const other = generatorSummary({ ...compared, agree: false });
  expect(other).toContain("do not use the result");
  expect(other.split("\n").filter((line) => line.startsWith("y "))).toHaveLength(compared.figures.length);
});

test("colour and width follow the stream", () => {
  const stream = (isTTY: boolean, columns: number) => ({ isTTY, columns }) as NodeJS.WriteStream;
  expect(widthOf(stream(false, 60))).toBe(100);
  expect(widthOf(stream(true, 60))).toBe(60);
  expect(widthOf(stream(true, 500))).toBe(140);
  expect(widthOf(stream(true, 0))).toBe(100);
  expect(stylesFor(stream(false, 80)).bold("x")).toBe("x");
});
