import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, describe, expect, test } from "vitest";
import { ALLOWED, compareContestants, KNOWN_TRIALS, standardErrorOf } from "./harness/agreement.ts";
import { checksumOf, faultsOf, type Answer } from "./harness/answer.ts";
import { meanOf, nearestRank, quantile, ratiosOf, spreadOf } from "./harness/arithmetic.ts";
import { openContestant } from "./harness/contestant.ts";
import { partNames, readOptions } from "./harness/options.ts";
import { pictureOf } from "./harness/picture.ts";
import { withEarlier, type Results } from "./harness/results.ts";
import { disagreements } from "./harness/rounds.ts";
import { met, row } from "./harness/row.ts";
import { tableMarkdown, tableText, withTable } from "./harness/table.ts";
import { oursAsKnown, root } from "./ours-as-known.ts";
import { OTHERS } from "./workloads/others.ts";

const made = mkdtempSync(join(tmpdir(), "trialband-bench-test-"));
afterAll(() => rmSync(made, { recursive: true }));

describe("the harness's arithmetic", () => {
  test.each([
    { values: [3], median: 3, lower: 3, upper: 3 },
    { values: [4, 1, 3, 2], median: 2.5, lower: 1.75, upper: 3.25 },
    // Seven rounds, the usual number: the 2nd, 4th and 6th lie at places 1.5, 3 and 4.5 from 0.
    { values: [70, 10, 60, 20, 50, 30, 40], median: 40, lower: 25, upper: 55 },
  ])("quartiles of $values", ({ values, median, lower, upper }) => {
    expect(spreadOf(values)).toEqual({ median, lower, upper });
  });

  test("quantiles rise, stay within the values, and do not depend on their order", () => {
    const list = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(
        list,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (values, p, q) => {
          const [low, high] = [quantile(values, Math.min(p, q)), quantile(values, Math.max(p, q))];
          const slack = 1e-9 * Math.max(1, ...values.map(Math.abs));
          expect(high).toBeGreaterThanOrEqual(low - slack);
          expect(low).toBeGreaterThanOrEqual(Math.min(...values) - slack);
          expect(high).toBeLessThanOrEqual(Math.max(...values) + slack);
          expect(quantile(values.toReversed(), p)).toBe(quantile(values, p));
        },
      ),
      { seed: 7 },
    );
  });

  test("the 99th percentile of 200 requests is the 198th", () => {
    const values = Array.from({ length: 200 }, (_, i) => 200 - i);
    expect(nearestRank(values, 0.99)).toBe(198);
    expect(nearestRank([5], 0.99)).toBe(5);
  });

  test("a ratio is taken within a round: a machine that slows for a round leaves it", () => {
    const theirs = [100, 100, 300, 100, 200];
    expect(
      ratiosOf(
        theirs.map((value) => value / 4),
        theirs,
      ),
    ).toEqual({ median: 0.25, lower: 0.25, upper: 0.25 });
    expect(ratiosOf([1, 2, 3], [2, 2, 2])).toEqual({ median: 1, lower: 0.75, upper: 1.25 });
    expect(() => ratiosOf([1], [1, 2])).toThrow("1 rounds against 2");
  });

  test("no values have no median", () => expect(() => quantile([], 0.5)).toThrow(RangeError));
  test("a mean", () => expect(meanOf([1, 2, 6])).toBe(3));
});

describe("every contestant computes the same", () => {
  oursAsKnown(["W1"]);

  test("a contestant that fails is told with its own words", async () => {
    const program = {
      id: "x",
      title: "X",
      program: process.execPath,
      words: [
        "-e",
        "console.log('{\"name\":\"x\"}'); process.stdin.once('data', () => { console.error('out of luck'); process.exit(3); })",
      ],
    };
    const contestant = await openContestant(program);
    await expect(contestant.ask("W1", 1000, 1)).rejects.toThrow(/X ended with code 3: out of luck/);
    await expect(openContestant({ ...program, program: "/no/such/program" })).rejects.toThrow(/did not start/);
  });
});

describe("what does not agree is found", () => {
  const answer = (shift: number, checksum?: string): Answer => {
    const figures = {
      estimate: 0.0157 + shift,
      standardUncertainty: 0.0153,
      symmetric: [-0.0133, 0.0448] as const,
      shortest: [-0.013, 0.045] as const,
      histogram: { low: -0.02, width: 0.001, below: 5, above: 5, counts: [999_990] },
    };
    const outputs = [{ ...figures, shortest: [-0.0132, 0.0448] as const }];
    return {
      workload: "W1",
      trials: 1_000_000,
      seed: 1,
      milliseconds: 1,
      outputs,
      ellipsoid: null,
      residentKb: 1,
      checksum: checksum ?? checksumOf(outputs, null),
    };
  };
  // u/√M for the mean of 10⁶ trials; the known figure is a measured one.
  const standardError = 0.01528 / 1000;

  test("a standard error falls as 1/√M, that of a shortest interval's end as the cube root", () => {
    const known = { mean: 0, standardDeviation: 8 };
    expect(standardErrorOf("estimate", known, KNOWN_TRIALS * 64)).toBeCloseTo(1, 12);
    expect(standardErrorOf("shortestLow", known, KNOWN_TRIALS * 64)).toBeCloseTo(2, 12);
    const [estimate] = compareContestants([answer(0)], [answer(0)]);
    // 1000 runs give a standard deviation within 2.2 % (1/√2000); four times that.
    expect(estimate!.standardError / (standardError * Math.SQRT2)).toBeGreaterThan(0.91);
    expect(estimate!.standardError / (standardError * Math.SQRT2)).toBeLessThan(1.09);
  });

  test("an estimate that is off by more than five standard errors of a difference", () => {
    const off = ALLOWED * Math.SQRT2 * standardError;
    const apart = (shift: number): string[] =>
      disagreements(
        new Map([
          ["ours-1", [answer(0)]],
          ["c", [answer(shift)]],
        ]),
      );
    expect(apart(0.8 * off)).toEqual([]);
    expect(apart(1.2 * off)).toEqual([
      expect.stringMatching(/^W1 measurand 1 estimate: ours-1 less c is -.*, more than 5 standard errors/),
    ]);
    // Many rounds tell a smaller difference.
    const many = (shift: number): Answer[] => Array.from({ length: 16 }, () => answer(shift));
    expect(
      disagreements(
        new Map([
          ["ours-1", many(0)],
          ["c", many(0.5 * off)],
        ]),
      ),
    ).toHaveLength(1);
  });

  test("bits that depend on the number of workers, a checksum that is not of the figures, a trial that is missing", () => {
    expect(
      disagreements(
        new Map([
          ["ours-1", [answer(0)]],
          ["ours-2", [answer(1e-12)]],
        ]),
      ),
    ).toEqual([expect.stringMatching(/different bits with seed 1/)]);
    expect(faultsOf(answer(0, "00000000"))).toEqual([
      expect.stringMatching(/checksum 00000000 is not that of its figures/),
    ]);
    expect(faultsOf({ ...answer(0), trials: 1_000_001 })).toEqual([
      "measurand 1: the histogram holds 1000000 of 1000001 trials",
    ]);
    expect(faultsOf(answer(0))).toEqual([]);
  });
});

describe("options", () => {
  test("the usual ones, and each by its name", () => {
    expect(readOptions([])).toMatchObject({
      rounds: 7,
      trials: 1_000_000,
      long: false,
      readme: true,
      page: true,
      keep: true,
    });
    expect(readOptions([])).toHaveProperty("only", new Set(partNames));
    const some = readOptions([
      "--only",
      "W1, scaling",
      "--rounds",
      "9",
      "--long",
      "--no-readme",
      "--no-page",
      "--trials",
      "20_000",
    ]);
    expect(some).toEqual({
      only: new Set(["W1", "scaling"]),
      rounds: 9,
      trials: 20_000,
      long: true,
      readme: false,
      page: false,
      keep: false,
    });
    expect(readOptions(["--help"])).toBe("help");
  });

  test.each([
    [["--only", "W7"], /--only: "W7"; accepted are W1, W2/],
    [["--rounds", "2"], /--rounds: "2"; accepted is a whole number from 3 to 1000/],
    [["--trials", "many"], /--trials: "many"; accepted is a whole number/],
    [["--fast"], /--fast/],
  ])("%j is refused", (words, message) => expect(() => readOptions(words)).toThrow(message));
});

describe("what is kept", () => {
  const spread = { median: 50, lower: 45, upper: 60 };
  const timing = (workload: string, contestant: string, title: string) => ({
    workload,
    contestant,
    title,
    milliseconds: spread,
    residentMb: 100,
    checksum: "0",
  });
  const results: Results = {
    measuredAt: "2026-11-01T00:00:00Z",
    rounds: 7,
    sources: "s",
    residentMb: [1, 2],
    machine: {
      processor: "P",
      cores: 2,
      memoryGb: 8,
      system: "S",
      node: "v20",
      contestants: { c: "C, gcc 12" },
      loadBefore: 0,
      commit: null,
    },
    timings: [timing("W1", "ours-1", "Trialband, 1 worker"), timing("W1", "c", "C & co")],
    rows: [
      row("W1", "a", "≤0.2", 0.1, { spread }),
      row("W1", "b", "≥1.85", 1.8, { unit: "×" }),
      row("W5", "c", null, 7),
      row("W5", "d", "≤3", null, { note: "not here" }),
    ],
  };

  test("a target is met, not met, or not judged", () => {
    expect(results.rows.map(met)).toEqual([true, false, null, null]);
    expect(met(row("W1", "at the limit", "≤0.2", 0.2))).toBe(true);
  });

  test("the tables hold target, measured and verdict", () => {
    const text = tableText(results);
    expect(text).toMatch(/a +≤ 0\.2 +0\.10 \(45\.0–60\.0\) +met/);
    expect(text).toMatch(/b +≥ 1\.85 × +1\.80 × +not met/);
    expect(text).toMatch(/d +≤ 3 +not measured +–/);
    expect(withTable("x\n<!-- bench -->old<!-- /bench -->\ny", tableMarkdown(results))).toMatch(
      /^x\n<!-- bench -->\n\n\| median[^]*\| a \| ≤ 0\.2 \|[^]*<!-- \/bench -->\ny$/,
    );
    expect(() => withTable("no markers", "")).toThrow(/no <!-- bench -->/);
  });

  test("tests/bench/README.md has the markers", () =>
    expect(withTable(readFileSync(join(root, "tests/bench/README.md"), "utf8"), "table")).toContain(
      "<!-- bench -->\n\ntable\n\n<!-- /bench -->",
    ));

  test("the picture names every bar with its figure", () => {
    const picture = pictureOf(results)!;
    expect(picture).toContain("C &amp; co");
    expect(picture.match(/50\.0 ms<\/text>/g)).toHaveLength(2);
    expect(pictureOf({ ...results, timings: [] })).toBeNull();
  });

  test("a run of some parts keeps the others only where the sources are the same", () => {
    const again = { ...results, rows: [row("W1", "e", null, 1)] };
    const rowsWith = (earlier: Results, name: string): string[] =>
      withEarlier(again, new Set(["W1"]), resultsFile(earlier, name)).rows.map(({ words }) => words);
    expect(rowsWith(results, "same.json")).toEqual(["e", "c", "d"]);
    expect(rowsWith({ ...results, sources: "other" }, "other.json")).toEqual(["e"]);
    expect(withEarlier(again, new Set(["W1"]), join(made, "none.json"))).toBe(again);
  });
});

function resultsFile(results: Results, name: string): string {
  const path = join(made, name);
  writeFileSync(path, JSON.stringify(results));
  return path;
}

test("there are twenty other models, and each file is there", () => {
  expect(new Set(OTHERS).size).toBe(20);
  expect(OTHERS.filter((path) => !existsSync(join(root, path)))).toEqual([]);
  expect(readdirSync(join(root, "tests/bench/workloads")).filter((name) => /^w\d\.ts$/.test(name))).toEqual([
    "w1.ts",
    "w2.ts",
    "w3.ts",
    "w6.ts",
  ]);
});
