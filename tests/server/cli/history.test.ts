// trialband history: drift, prediction and due days of an instrument over years, as a person types it.
import { readFileSync } from "node:fs";
import { strFromU8, unzipSync } from "fflate";
import { expect, test } from "vitest";
import type { HistoryEvaluation } from "../../../models/index.ts";
import { displayWidth } from "../../../viewer/terminal/table.ts";
import { scratch, trialband } from "./trialband.ts";

const { path, write } = scratch();

test("a reference from its table: prints drift, day and statements; writes JSON, CSV and a report", async () => {
  const files = [
    "--out",
    path("h.json"),
    "--report",
    path("h.html"),
    "--csv",
    path("h.csv"),
    "--language",
    "de",
  ].concat(["--xlsx", path("h.xlsx")]);
  const { stdout, stderr, status } = await trialband("history", "examples/history/reference-HR-02.json", ...files);
  expect(stderr).toBe("");
  expect(status).toBe(0);
  for (const words of ["calibrate by", "explain the scatter", "For a study", "To repeat"])
    expect(stdout).toContain(words);
  expect(stdout).not.toMatch(/NaN|undefined|\{\w+\}/);
  expect(stdout.split("\n").filter((line) => displayWidth(line) > 100)).toEqual([]);
  const found = JSON.parse(readFileSync(path("h.json"), "utf8")) as HistoryEvaluation;
  expect(found.quantities.map(({ entries }) => entries.length)).toEqual([8, 8]);
  const rows = readFileSync(path("h.csv"), "utf8").trim().split("\r\n");
  expect(rows).toHaveLength(17);
  const sheets = unzipSync(new Uint8Array(readFileSync(path("h.xlsx"))));
  // Drift, then entries and statements of two quantities.
  expect(Object.keys(sheets).filter((name) => name.includes("worksheets/sheet"))).toHaveLength(5);
  expect(strFromU8(sheets["xl/workbook.xml"]!)).toContain(found.quantities[0]!.name);
  const html = readFileSync(path("h.html"), "utf8");
  expect(html).toContain('<html lang="de">');
  expect(html.match(/<svg/g)).toHaveLength(4);
  // A line that no rule of the style sheet names is drawn as a black area.
  const style = html.slice(html.indexOf("<style>"), html.indexOf("</style>"));
  const drawn = [...html.matchAll(/<(?:path|line|circle)[^>]*class="([^"]+)"/g)].flatMap(([, names]) =>
    names!.split(" "),
  );
  expect([...new Set(drawn)].filter((name) => !new RegExp(`\\.${name}\\b`).test(style))).toEqual([]);
  expect(html).not.toMatch(/NaN|undefined|\{\w+\}/);
});

test("a bath from its surveys: a renewed pump is not what the line predicted", async () => {
  const { stdout, status } = await trialband("history", "examples/history/glycol-bath.json", "--use", "2026-09-01");
  expect(status).toBe(0);
  expect(stdout.replaceAll(/\s+/g, " ")).toMatch(/do not explain the scatter.*2025-01-21 2\.30 .*not as predicted/);
  expect(stdout).toContain("2026-09-01");
});

test("a table that is not there, a day of use that is none", async () => {
  const document = { title: "t", subject: "s", quantities: [{ name: "y", unit: "K" }], use: "2026-01-01" };
  const missing = await trialband("history", write("missing.json", { ...document, table: "none.csv" }));
  expect(missing.stderr).toContain("none.csv");
  expect(missing.status).toBe(2);
  const early = await trialband("history", "examples/history/glycol-bath.json", "--use", "1999-01-01");
  expect(early.stderr.replaceAll(/\s+/g, " ")).toMatch(
    /use: got "1999-01-01"; expected a day from the last calibration/,
  );
  expect(early.status).toBe(2);
});
