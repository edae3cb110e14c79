// trialband workbook, trials and d-si as a person types them.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { parquetMetadata } from "hyparquet";
import { beforeAll, describe, expect, test } from "vitest";
import { sheetsOf } from "../export/workbook-cells.ts";
import { scratch, trialband } from "./trialband.ts";

const { path, write } = scratch();
let record: string;
beforeAll(async () => {
  record = path("record.json");
  await trialband("run", "examples/published/end-gauge.json", "--trials", "10000", "--out", record, "--quiet");
});

const leftOvers = (): string[] => readdirSync(dirname(record)).filter((name) => name.endsWith(".part"));

test("workbook writes the budget, in German too", async () => {
  const out = path("budget.xlsx");
  expect(await trialband("workbook", record, "--out", out, "--language", "de")).toMatchObject({
    status: 0,
    stdout: "",
  });
  const sheets = await sheetsOf(readFileSync(out));
  expect(sheets.map(({ name }) => name)).toEqual(["Budget length", "Protokoll"]);
});

test("d-si prints, or writes with --out", async () => {
  const printed = await trialband("d-si", record);
  expect(printed.stdout).toContain('<si:list xmlns:si="https://ptb.de/si">');
  const out = path("results.xml");
  await trialband("d-si", record, "--out", out);
  expect(readFileSync(out, "utf8")).toBe(printed.stdout);
});

test("trials of a record, of a study, and of a model of one's own", async () => {
  const rows = (file: string): number => {
    const bytes = readFileSync(file);
    return Number(
      parquetMetadata(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length) as ArrayBuffer).num_rows,
    );
  };
  const [first, second, third] = ["a.parquet", "b.npy", "c.parquet"].map(path) as [string, string, string];
  const done = await trialband("trials", record, "--out", first);
  expect(done).toMatchObject({ status: 0, stderr: expect.stringContaining("10000 trials of ") });
  expect(rows(first)).toBe(10_000);
  await trialband(
    "trials",
    "examples/published/end-gauge.json",
    "--trials",
    "20000",
    "--out",
    second,
    "--measurands-only",
  );
  expect(readFileSync(second).subarray(1, 6).toString()).toBe("NUMPY");
  const own = await trialband("trials", "examples/density/check-weight.json", "--trials", "4000", "--out", third);
  expect(own.status).toBe(0);
  expect(rows(third)).toBe(4000);
});

describe("what cannot be done is said, and nothing is left behind", () => {
  test.each<[string, (file: string) => readonly string[], RegExp]>([
    [
      "a record altered after sealing",
      (file) => ["workbook", file, "--out", path("x.xlsx")],
      /altered after it was sealed/,
    ],
    ["the same for D-SI", (file) => ["d-si", file, "--out", path("x.xml")], /altered after it was sealed/],
    ["the same for trials", (file) => ["trials", file, "--out", path("x.npy")], /altered after it was sealed/],
    [
      "other trials for a record",
      () => ["trials", record, "--trials", "5000", "--out", path("x.npy")],
      /--trials: got 5000/,
    ],
    ["an ending without a format", () => ["trials", record, "--out", path("x.csv")], /\.parquet or \.npy/],
    ["a folder that is not there", () => ["trials", record, "--out", join(path("none"), "x.npy")], /cannot be written/],
  ])("%s", async (_, command, message) => {
    const altered = JSON.parse(readFileSync(record, "utf8")) as { study: { title: string } };
    altered.study.title += " altered";
    const file = write("altered.json", altered);
    const { status, stderr } = await trialband(...command(file));
    expect(status).not.toBe(0);
    expect(stderr).toMatch(message);
    expect(["x.xlsx", "x.xml", "x.npy", "x.csv"].some((name) => existsSync(path(name)))).toBe(false);
    expect(leftOvers()).toEqual([]);
  });

  test("trials that are not the record's are found at the end", async () => {
    const other = JSON.parse(readFileSync(record, "utf8")) as {
      seal?: unknown;
      provenance?: unknown;
      study: { seed: string };
    };
    delete other.seal;
    delete other.provenance;
    other.study.seed = "another";
    const { status, stderr } = await trialband("trials", write("other.json", other), "--out", path("x.npy"));
    expect(status).toBe(2);
    expect(stderr).toMatch(/not those of the record/);
    expect(existsSync(path("x.npy"))).toBe(false);
    expect(leftOvers()).toEqual([]);
  });
});
