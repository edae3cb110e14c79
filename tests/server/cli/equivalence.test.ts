// trialband equivalence: a comparison between laboratories as a person types it.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { strFromU8, unzipSync } from "fflate";
import { describe, expect, test } from "vitest";
import type { LaboratoriesEvaluation } from "../../../models/index.ts";
import { displayWidth } from "../../../viewer/terminal/table.ts";
import { root, scratch, trialband } from "./trialband.ts";

const EXAMPLE = "examples/interlaboratory/bath-72.json";
const { path, write } = scratch();
const example = JSON.parse(readFileSync(join(root, EXAMPLE), "utf8")) as Record<string, unknown> & {
  laboratories: Record<string, unknown>[];
};
const evaluationOf = async (document: object): Promise<LaboratoriesEvaluation> => {
  const { stdout, stderr, status } = await trialband("equivalence", write("comparison.json", document), "--json");
  expect(stderr).toBe("");
  expect(status).toBe(0);
  return JSON.parse(stdout) as LaboratoriesEvaluation;
};
const inconsistent = (): object => ({
  trials: 10_000,
  ...example,
  laboratories: example.laboratories.map((laboratory, i) => (i === 2 ? { ...laboratory, value: 90 } : laboratory)),
});

test("prints reference value, consistency and every laboratory, within its width", async () => {
  const { stdout, stderr, status } = await trialband("equivalence", EXAMPLE, "--out", path("out.json"));
  expect(stderr).toBe("");
  expect(status).toBe(0);
  for (const words of ["Reference value", "weighted mean", "are consistent", "Degrees of equivalence", "Lindhow"])
    expect(stdout).toContain(words);
  expect(stdout).not.toMatch(/NaN|undefined|null|\x1b|\{\w+\}/);
  expect(stdout.split("\n").filter((line) => displayWidth(line) > 100)).toEqual([]);
  const written = JSON.parse(readFileSync(path("out.json"), "utf8")) as LaboratoriesEvaluation;
  expect(written.reference.kind).toBe("weighted mean");
  // Four results, their covariance by hand: weights 1ᵀV⁻¹/(1ᵀV⁻¹1) with r = 0.3 between the first two.
  expect(written.pairs).toHaveLength(10);
  expect(written.laboratories[4]!.differenceUncertainty).toBeCloseTo(
    Math.hypot(9, written.reference.standardUncertainty),
    12,
  );
});

test("the same as a report in German, and as a workbook", async () => {
  const files = ["--report", path("e.html"), "--xlsx", path("e.xlsx"), "--out", path("e.json")];
  const { status } = await trialband("equivalence", EXAMPLE, "--language", "de", ...files);
  expect(status).toBe(0);
  const html = readFileSync(path("e.html"), "utf8");
  expect(html).toContain('<html lang="de">');
  for (const words of ["Vergleich zwischen Laboratorien", "Referenzwert", "Lindhow", "bath-72.json, SHA-256"])
    expect(html).toContain(words);
  expect(html).not.toMatch(/NaN|undefined|\{\w+\}/);
  const found = JSON.parse(readFileSync(path("e.json"), "utf8")) as LaboratoriesEvaluation;
  const sheets = unzipSync(new Uint8Array(readFileSync(path("e.xlsx"))));
  expect(Object.keys(sheets).filter((name) => name.includes("worksheets/sheet"))).toHaveLength(2);
  expect(strFromU8(sheets["xl/worksheets/sheet1.xml"]!)).toContain(`<v>${found.reference.value}</v>`);
});

test("results that are not consistent: the random-effects value is taken, and it says so", async () => {
  const found = await evaluationOf(inconsistent());
  expect(found.consistent).toBe(false);
  expect(found.reference.kind).toBe("random effects");
  expect(found.alternative!.between).toBeGreaterThan(10);
  const { stdout } = await trialband("equivalence", path("comparison.json"));
  expect(stdout).toContain("not consistent");
});

test.each([
  ["largestSubset", "largest consistent subset", "Not in it: Osmery"],
  ["median", "median", "95 % interval of D"],
] as const)("with %s: it is taken, and the tables say so", async (whenInconsistent, kind, words) => {
  const file = write("other.json", { ...inconsistent(), whenInconsistent });
  const { stdout, status } = await trialband("equivalence", file, "--out", path("other.out.json"));
  expect(status).toBe(0);
  expect((JSON.parse(readFileSync(path("other.out.json"), "utf8")) as LaboratoriesEvaluation).reference.kind).toBe(
    kind,
  );
  expect(stdout.replaceAll(/\s+/g, " ")).toContain(words);
  expect(stdout.split("\n").filter((line) => displayWidth(line) > 100)).toEqual([]);
  expect(stdout).not.toMatch(/NaN|undefined|null|\{\w+\}/);
});

test("the example that is not consistent: the subset leaves one laboratory out", async () => {
  const { stdout, status } = await trialband("equivalence", "examples/interlaboratory/bath-minus-40.json");
  expect(status).toBe(0);
  expect(stdout.replaceAll(/\s+/g, " ")).toContain("Not in it: Calderwick");
});

test("an assigned value is the reference: ζ of 2·E_n if both k are 2", async () => {
  const assigned = { value: 24, standardUncertainty: 3 };
  const found = await evaluationOf({ ...example, assigned });
  expect(found.reference).toMatchObject({ kind: "assigned", value: 24, standardUncertainty: 3 });
  for (const { zeta, normalisedError } of found.laboratories) expect(zeta!).toBeCloseTo(2 * normalisedError!, 12);
});

test("a laboratory that alone has almost all the weight leaves no difference to judge", async () => {
  const laboratories = [
    { name: "a", value: 1, standardUncertainty: 1 },
    { name: "b", value: 1, standardUncertainty: 1 },
  ];
  const found = await evaluationOf({ ...example, laboratories, correlations: [] });
  expect(found.laboratories.map(({ normalisedError }) => normalisedError)).toEqual([0, 0]);
});

describe("refused, with the place", () => {
  const [first, ...others] = example.laboratories;
  test.each<[string, object, RegExp]>([
    ["one laboratory", { laboratories: [first] }, /laboratories.*at least 2 values/s],
    ["two of one name", { laboratories: [first, first, ...others] }, /laboratories\.1\.name.*another name/s],
    [
      "an uncertainty stated twice",
      { laboratories: [{ ...first, standardUncertainty: 3 }, ...others] },
      /laboratories\.0.*standardUncertainty alone, or expandedUncertainty with coverageFactor/s,
    ],
    [
      "no uncertainty",
      { laboratories: [{ name: "a", value: 1 }, ...others], correlations: [] },
      /laboratories\.0.*standardUncertainty alone/s,
    ],
    [
      "an uncertainty of 0",
      { laboratories: [{ name: "a", value: 1, standardUncertainty: 0 }, ...others] },
      /laboratories\.0\.standardUncertainty.*greater than 0/s,
    ],
    [
      "a correlation with nobody",
      { correlations: [{ between: ["Osmery", "Nowhere"], coefficient: 0.1 }] },
      /correlations\.0\.between.*two different laboratories/s,
    ],
    [
      "correlations that cannot be",
      { correlations: [{ between: ["Harrowfen", "Tarnbeck"], coefficient: 1 }] },
      /covariance.*not positive definite/s,
    ],
    ["a way that there is not", { whenInconsistent: "mean" }, /whenInconsistent: got "mean".*largestSubset/s],
    ["too few trials", { trials: 100 }, /trials: got 100.*10000/s],
    [
      "more values than are kept",
      {
        trials: 1_000_000,
        correlations: [],
        laboratories: Array.from({ length: 30 }, (_, i) => ({ name: `L${i}`, value: i, standardUncertainty: 1 })),
      },
      /trials: got 1000000; expected at most 666666 with 30 laboratories/s,
    ],
    [
      "nobody in the reference value",
      { laboratories: example.laboratories.map((each) => ({ ...each, inReference: false })) },
      /laboratories.*two or more that count/s,
    ],
  ])("%s", async (_, change, message) => {
    const { status, stderr } = await trialband("equivalence", write("refused.json", { ...example, ...change }));
    expect(stderr.replaceAll(/\s+/g, " ")).toMatch(message);
    expect(status).toBe(2);
  });
});
