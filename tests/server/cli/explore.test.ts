// trialband explore as a person would type it, in this process.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import type { Exploration } from "../../../engine/index.ts";
import { root, trialband } from "./trialband.ts";
import { LONG } from "../../setup/long.ts";

const folder = mkdtempSync(join(tmpdir(), "trialband-explore-"));
afterAll(() => rmSync(folder, { recursive: true }));

const example = (id: string): string => join(root, "examples", `${id}.json`);

function study(name: string, changes: Record<string, unknown>): string {
  const path = join(folder, name);
  writeFileSync(
    path,
    JSON.stringify({
      ...(JSON.parse(readFileSync(example("published/mass-calibration"), "utf8")) as object),
      ...changes,
    }),
  );
  return path;
}

describe("explore", () => {
  test("says first that it is no result to report; then one aligned table a measurand, and what the columns are", async () => {
    const { status, stdout, stderr } = await trialband("explore", example("published/mass-calibration"));
    expect(status).toBe(0);
    expect(stderr).toBe("");
    expect(stdout).not.toMatch(/\x1b|NaN|undefined|null|Infinity/);
    const lines = stdout.split("\n");
    expect(lines[0]).toBe("Exploration: Mass calibration (JCGM 101, 9.3)");
    expect(lines[2]).toBe("16 independent scramblings of 4096 Sobol' points in 5 dimensions");
    expect(lines[3]).toBe("endpoints are those of the shortest 95 % interval");
    expect(lines.slice(5, 7).join(" ")).toMatch(
      /^This is an exploration .*, not a result to report: .* What is reported comes from trialband run\.$/,
    );
    const head = lines.findIndex((line) => line.startsWith("δm deviation of the conventional mass"));
    expect(lines[head]).toMatch(/, mg$/);
    const table = lines.slice(head + 1, head + 6);
    expect(table[0]!.trim().split(/ {2,}/)).toEqual([
      "points",
      "standard error",
      "±",
      "plain",
      "standard error",
      "gain",
      "gain, 95 %",
    ]);
    expect(table.slice(1).map((line) => line.trim().split(/ {2,}/)[0])).toEqual(["estimate", "u", "y_low", "y_high"]);
    // Every row has its decimal signs of the first four columns of figures where the others have them.
    for (const line of table.slice(1)) expect(line.indexOf("."), line).toBe(table[1]!.indexOf("."));
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(100);
    expect(stdout).toContain("shortest interval is noisy");
  });

  test("prints the same each time, and other figures for another seed", async () => {
    const [first, second, other] = [
      await trialband("explore", example("harrowfen/cold-store-4"), "--points", "256", "--scramblings", "4"),
      await trialband("explore", example("harrowfen/cold-store-4"), "--points", "256", "--scramblings", "4"),
      await trialband(
        "explore",
        example("harrowfen/cold-store-4"),
        "--points",
        "256",
        "--scramblings",
        "4",
        "--seed",
        "other",
      ),
    ];
    expect(second!.stdout).toBe(first!.stdout);
    expect(other!.stdout).not.toBe(first!.stdout);
    expect(other!.stdout).toContain('seed "other"');
  });

  test("--json prints the exploration, which is no record", async () => {
    const { status, stdout } = await trialband(
      "explore",
      example("published/polar-010-correlated"),
      "--points",
      "512",
      "--scramblings",
      "8",
      "--json",
    );
    expect(status).toBe(0);
    const exploration = JSON.parse(stdout) as Exploration;
    expect(exploration).toMatchObject({
      format: "trialband-exploration/1",
      points: 512,
      scramblings: 8,
      dimensions: 2,
      seed: "polar-010-correlated",
    });
    expect(Object.keys(exploration.measurands)).toEqual(["modulus", "phase"]);
    for (const { estimate, standardUncertainty, low, high } of Object.values(exploration.measurands)) {
      for (const figure of [estimate!, standardUncertainty!, low, high]) {
        expect(figure.gain).toBeCloseTo((figure.plain.standardError / figure.standardError) ** 2, 6);
        expect(figure.interval[0]).toBeLessThan(figure.value);
        expect(figure.gainInterval![1]).toBeGreaterThan(figure.gain!);
      }
    }
  });

  test("none where there is no standard deviation; a word where too few points lie beyond an end", async () => {
    const { stdout } = await trialband(
      "explore",
      example("verdicts/few-readings"),
      "--points",
      "64",
      "--scramblings",
      "4",
    );
    expect(stdout).toMatch(/^ {3}estimate +none +none$/m);
    expect(stdout).toMatch(/^ {3}u +none +none$/m);
    expect(stdout).toContain("Only 1.5 points of a scrambling lie beyond either end");
    expect(stdout).not.toMatch(/NaN|null|undefined/);
  });

  test("--help tells the options, what they accept and the exit codes", async () => {
    const { status, stdout } = await trialband("explore", "--help");
    expect(status).toBe(0);
    const text = stdout.replace(/\s+/g, " ");
    for (const part of [
      "--points <n>",
      "a power of two from 64 to 1048576 (default: 4096)",
      "--scramblings <n>",
      "from 4 to 64 (default: 16)",
      "--json",
      "--seed <text>",
      "Exit codes: 0 done",
    ]) {
      expect(text).toContain(part);
    }
  });

  const points = "Expected a power of two from 64 to 1048576";
  const scramblings = "Expected a whole number from 4 to 64.";
  test.each([
    [["--points", "100"], "'--points <n>' argument '100' is invalid", points],
    [["--points", "32"], "'--points <n>' argument '32' is invalid", points],
    [["--points", "2097152"], "'--points <n>' argument '2097152' is invalid", points],
    [["--points", "many"], "'--points <n>' argument 'many' is invalid", points],
    [["--points", ""], "'--points <n>' argument '' is invalid", points],
    [["--scramblings", "3"], "'--scramblings <n>' argument '3' is invalid", scramblings],
    [["--scramblings", "65"], "'--scramblings <n>' argument '65' is invalid", scramblings],
    [["--scramblings", "8.5"], "'--scramblings <n>' argument '8.5' is invalid", scramblings],
  ])("refuses %o with the option, the value and what is expected", async (flags, found, accepted) => {
    const { status, stdout, stderr } = await trialband("explore", example("published/mass-calibration"), ...flags);
    expect(status).toBe(2);
    expect(stdout).toBe("");
    expect(stderr).toContain(found);
    expect(stderr).toContain(accepted);
  });

  test("a study that cannot be used, and one that is not there", async () => {
    const bad = await trialband("explore", study("bad.json", { coverage: { probability: 2 } }));
    expect(bad.status).toBe(2);
    expect(bad.stderr).toMatch(/coverage\.probability: got 2; expected/);
    const missing = await trialband("explore", join(folder, "none.json"));
    expect(missing.status).toBe(2);
    expect(missing.stderr).toContain("There is no file");
  });

  test("a model that fails ends with 1 and the inputs", async () => {
    const model = join(folder, "root.mjs");
    writeFileSync(
      model,
      `export default { id: "root", title: "Root", measurands: { y: { symbol: "y", meaning: "root", unit: "1" } }, inputs: { x: { symbol: "x", meaning: "square", unit: "1" } }, evaluate: ({ x }) => Math.sqrt(x) };`,
    );
    const { status, stdout, stderr } = await trialband(
      "explore",
      study("root.json", {
        model: "./root.mjs",
        inputs: { x: { distribution: "rectangular", lower: -0.1, upper: 1 } },
      }),
    );
    expect(status).toBe(1);
    expect(stdout).toBe("");
    expect(stderr).toMatch(/model root returned NaN for y at trial \d+ \(x = -0\.0/);
  });

  test.each([
    "examples/harrowfen/steriliser-134.json",
    "examples/published/mass-calibration.json",
    "tests/bench/workloads/w1.ts",
  ])("the gains in examples/README.md are those it prints: %s", LONG, async (path) => {
    const { stdout } = await trialband("explore", join(root, path));
    // What stands before the interval of the gain, the last column.
    const gains = ["estimate", "u", "y_low", "y_high"].map(
      (row) => new RegExp(`^ {3}${row} .* ([0-9.]+) +[0-9.]+ to [0-9.]+$`, "m").exec(stdout)![1]!,
    );
    const dimensions = / in (\d+) dimensions$/m.exec(stdout)![1]!;
    const row = readFileSync(join(root, "examples/README.md"), "utf8")
      .split("\n")
      .find((line) => line.startsWith(`| \`${path}\``));
    expect(row?.endsWith(`, ${dimensions} dimensions | ${gains.join(" | ")} |`), row).toBe(true);
  });
});
