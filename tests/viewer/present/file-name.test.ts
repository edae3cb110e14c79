import { expect, test } from "vitest";
import { fileNameOf } from "../../../viewer/present/file-name.ts";

test.each<[string, string | null, string, string]>([
  ["Steriliser bath at 134 °C", "2026-11-29T10:11:12.000Z", "budget", "steriliser-bath-at-134-c-2026-11-29-budget.svg"],
  ["Prüfgröße µ/ß ../../x", null, "Verteilung 1", "prufgrosse-μ-ss-x-verteilung-1.svg"],
  ["Bath, k = 1.96.", null, "u", "bath-k-1.96-u.svg"],
  ["", null, "", "trialband.svg"],
  ['CON: a|b?*<>"\\', "yesterday", "density", "con-a-b-density.svg"],
  ["x".repeat(100), null, "y", `${"x".repeat(48)}-y.svg`],
])("%s, %s, %s is %s", (study, day, what, name) => {
  expect(fileNameOf(study, day, what, "svg")).toBe(name);
});
