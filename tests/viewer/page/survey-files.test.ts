import { english } from "../../../viewer/present/numbers.ts";
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readAddress, writeAddress, type Address } from "../../../viewer/page/address.ts";
import { openFiles } from "../../../viewer/page/open-file.ts";
import { duration, milli, moment, signed } from "../../../viewer/present/survey-figures.ts";

const example = (name: string): string =>
  readFileSync(new URL(`../../../examples/survey/${name}`, import.meta.url), "utf8");
const file = (name: string, text: string): File => new File([text], name);
const description = file("pasteuriser-72.json", example("pasteuriser-72.json"));
const log = file("pasteuriser-72.csv", example("pasteuriser-72.csv"));

test.each<[string, Address]>([
  ["#surveys", { kind: "surveys" }],
  ["#survey=pasteuriser-72", { kind: "survey", id: "pasteuriser-72" }],
  ["#survey=a%20b", { kind: "survey", id: "a b" }],
  ["#survey-setup", { kind: "survey-setup", id: null }],
  ["#survey-setup=7f", { kind: "survey-setup", id: "7f" }],
])("%s", (hash, address) => {
  expect(readAddress(hash)).toEqual(address);
  expect(writeAddress(address)).toBe(hash);
});

test.each(["#survey=", "#survey"])("%j names nothing", (hash) => {
  expect(readAddress(hash)).toEqual({ kind: "nothing" });
});

describe("openFiles", () => {
  test("takes a description with its log, in either order", async () => {
    expect(await openFiles([description, log])).toEqual({ kind: "survey", files: [description, log], problems: null });
    expect(await openFiles([log, description])).toMatchObject({ kind: "survey" });
  });

  test("takes one file as it always did", async () => {
    expect(await openFiles([log])).toEqual({ kind: "table", problems: null });
    expect(await openFiles([file("s.json", '{"model": "additive", "inputs": {}}')])).toMatchObject({ kind: "study" });
    expect(await openFiles([file("r.json", '{"format": "trialband-record/2"}')])).toMatchObject({ kind: "record" });
  });

  test.each<[string, readonly File[], string, string]>([
    ["a description alone", [description], "pasteuriser-72.json: log", "no log opened with it"],
    [
      "two descriptions",
      [description, file("b.json", example("cold-store-4.json")), log],
      "pasteuriser-72.json, b.json",
      "2 descriptions of surveys",
    ],
    ["two logs", [log, file("b.csv", "")], "pasteuriser-72.csv, b.csv", "2 files at once"],
    ["a description that is no JSON", [file("a.json", "{"), log], "a.json", "not JSON from line 1, column 2: {"],
    [
      "a log that is too long",
      [description, new File([new Uint8Array(20_000_001)], "pasteuriser-72.csv")],
      "pasteuriser-72.csv",
      "20000001 bytes",
    ],
  ])("refuses %s", async (_what, files, place, value) => {
    const { problems } = await openFiles(files);
    expect(problems).toMatchObject([{ place, value }]);
    expect(problems![0]!.accepted).not.toBe("");
  });
});

test("figures in words", () => {
  const words = (text: string): string => text.replaceAll("\u00a0", " ");
  expect([0.000032, 0.0050364, 0.0200217, 0.25, 0, -0.0039811].map((kelvin) => words(milli(kelvin, english)))).toEqual([
    "0.032 mK",
    "5.04 mK",
    "20.0 mK",
    "250 mK",
    "0 mK",
    "−3.98 mK",
  ]);
  expect(words(signed(0.0017619, english))).toBe("+1.76 mK");
  expect([10, 1800, 10730].map((seconds) => words(duration(seconds, english)))).toEqual(["10 s", "30 min", "2.98 h"]);
  expect(words(moment(3170, english))).toBe("52.8 min");
  expect(moment(Date.UTC(2026, 2, 2, 8, 21, 50) / 1000, english)).toBe("2026-03-02 08:21:50");
});
