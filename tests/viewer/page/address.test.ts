import { expect, test } from "vitest";
import { readAddress, writeAddress, type Address } from "../../../viewer/page/address.ts";

test.each<[string, Address]>([
  ["#study=harrowfen/cold-store-4", { kind: "study", id: "harrowfen/cold-store-4" }],
  ["#run=r7", { kind: "run", id: "r7", measurand: null }],
  ["#run=a%20b&measurand=error", { kind: "run", id: "a b", measurand: "error" }],
  ["#compare=r7&with=a%2Fb", { kind: "comparison", id: "r7", with: "a/b" }],
  ["#new", { kind: "new" }],
  ["#runs", { kind: "runs" }],
  ["#draft=0a1b", { kind: "draft", id: "0a1b" }],
  ["#own", { kind: "own", id: null }],
  ["#own=0a1b", { kind: "own", id: "0a1b" }],
  ["#laboratory", { kind: "laboratory" }],
  ["#calibration", { kind: "calibration", id: null }],
  ["#calibration=0a1b", { kind: "calibration", id: "0a1b" }],
  ["#help", { kind: "help", word: null }],
  ["#help=coverage-interval", { kind: "help", word: "coverage-interval" }],
  ["#", { kind: "nothing" }],
])("%s", (hash, address) => {
  expect(readAddress(hash)).toEqual(address);
  expect(writeAddress(address)).toBe(hash);
});

test.each(["", "#run=", "#something", "#study", "#compare=r7", "#with=r7"])("%j names nothing", (hash) => {
  expect(readAddress(hash)).toEqual({ kind: "nothing" });
});
