// The command on budget tables, as a person types it.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import writeXlsx from "write-excel-file/node";
import { describe, expect, test } from "vitest";
import type { RunRecord } from "../../../engine/index.ts";
import { at, parsed, type Output } from "./laboratory-files.ts";
import { root, scratch, trialband } from "./trialband.ts";
import { LONG } from "../../setup/long.ts";

const { path, write } = scratch();

describe("budget", () => {
  test("shows what columns and rows were taken for before it runs, and writes the study", LONG, async () => {
    const out = path("budget.json");
    const { stdout, stderr, status } = await trialband(
      "budget",
      at("budget-72.csv"),
      "--out",
      out,
      "--run",
      "--title",
      "HF-034 at 72 °C",
      "--symbol",
      "e",
    );
    expect({ stderr, status }).toEqual({ stderr: "", status: 0 });
    const order = [
      "What the columns were taken for",
      "What the rows were taken for",
      "the inputs combine to u = 0.007876",
      `Wrote ${out}`,
      "linear budget",
    ].map((text) => stdout.indexOf(text));
    expect(order.every((place) => place >= 0)).toBe(true);
    expect(order.toSorted((a, b) => a - b)).toEqual(order);
    expect(stdout).toContain("HF-034 at 72 °C");
    const record = JSON.parse((await trialband("run", out, "--trials", "100000", "--json")).stdout) as RunRecord;
    // √(4² + (4² + 3² + 5² + 4² + 4² + 3² + 3² + 5²)/3 + 2² + 0.6²) mK, by hand.
    expect(Object.values(record.measurands)[0]!.linear.standardUncertainty * 1000).toBeCloseTo(
      Math.sqrt(16 + 125 / 3 + 4 + 0.36),
      9,
    );
    expect(record.inputs["stability"]!.evidence).toMatchObject({
      files: [{ name: "budget-72.csv" }],
      figures: [{ name: "row", value: 7 }],
    });
    expect((await trialband("budget", at("budget-72.csv"), "--out", out)).status).toBe(1);
  });

  test("reads a sheet of a spreadsheet, with columns named where their headings are not", async () => {
    const rows = [
      ["what", "figure", "how", "divisor"],
      ["Certificate", 8, "k = 2", 2],
      ["Drift", 4, "half-width", 1.732],
    ];
    const sheets = [
      { sheet: "notes", data: [[{ value: "nothing here" }]] },
      { sheet: "2026", data: rows.map((cells) => cells.map((value) => ({ value }))) },
    ];
    const file = path("b.xlsx");
    writeFileSync(file, await writeXlsx(sheets as never).toBuffer());
    expect(await trialband("budget", file)).toMatchObject({
      status: 2,
      stderr: expect.stringMatching(/Which sheet holds the budget\? .*2026/),
    });
    const args = [
      "budget",
      file,
      "--sheet",
      "2026",
      "--columns",
      "A=quantity,B=stated,C=howStated",
      "--unit",
      "mK",
      "--coverage",
      "k=2",
    ];
    const { stdout } = await trialband(...args);
    expect(stdout).toMatch(/B\s+figure\s+stated/);
    expect(parsed<Output>(await trialband(...args, "--json")).study).toMatchObject({
      coverage: { factor: 2 },
      model: "additive",
    });
  });

  test.each<[string, string[], RegExp]>([
    ["a file that is missing", ["none.csv"], /There is no file none\.csv/],
    ["no row of headings", [at("pasteuriser-72.csv")], /Which row heads the columns of the budget\?/],
    [
      "a field nobody knows",
      [at("budget-72.csv"), "--columns", "A=colour"],
      /A=colour: expected a column letter, = and one of quantity/,
    ],
    [
      "a coverage that is none",
      [at("budget-72.csv"), "--coverage", "2"],
      /probability such as 0\.95, or a factor such as k=2/,
    ],
  ])("%s is refused", async (_, args, message) => {
    expect(await trialband("budget", ...args)).toMatchObject({ status: 2, stderr: expect.stringMatching(message) });
  });

  test("names every cell that cannot be used", async () => {
    const text = readFileSync(join(root, at("budget-72.csv")), "utf8")
      .replace("0;5;half-width", "0;five;half-width")
      .replace("√3;-1;;two currents", "three;-1;;two currents");
    const { stderr, status } = await trialband("budget", write("wrong.csv", text));
    expect(status).toBe(2);
    expect(stderr).toMatch(/2 things in .*wrong\.csv cannot be used/);
    expect(stderr).toMatch(/row 5, column C \(Uncertainty \/ mK\): got "five"/);
    expect(stderr).toMatch(/row 8, column F \(Divisor\): got "three"/);
  });
});
