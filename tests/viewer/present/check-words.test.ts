// The check of an installation in German: every group, step, title, source and tolerance has its words.
import { describe, expect, test } from "vitest";
import { openContext } from "../../../server/selfcheck/context.ts";
import { checkGroups } from "../../../server/selfcheck/groups/index.ts";
import { selfcheck } from "../../../server/selfcheck/selfcheck.ts";
import { germanCheckWords } from "../../../viewer/present/check-words.ts";
import { LONG } from "../../setup/long.ts";

const german = germanCheckWords({ decimalSign: ",", separator: "; " });

describe("the check of an installation in German", () => {
  test("every group, step and its source", () => {
    const checks = checkGroups.flatMap((group) => group.checks(true));
    const titles = [...checkGroups, ...checks].map(({ title }) => title);
    expect(titles.filter((title) => german.text(title) === null)).toEqual([]);
    expect(checks.map(({ source }) => source).filter((source) => german.source(source) === null)).toEqual([]);
  });

  test("lines that are reckoned at once: titles, tolerances, sources", async () => {
    const context = openContext({ quick: true, workers: 1, seed: undefined, signal: undefined });
    const missing: string[] = [];
    for (const id of ["iec-60751", "its-90", "linearised"])
      for (const check of checkGroups.find((group) => group.id === id)!.checks(true))
        for (const { what, source, tolerance } of await check.lines(context)) {
          for (const text of [what, tolerance.basis]) if (german.text(text) === null) missing.push(text);
          if (source !== null && german.source(source) === null) missing.push(source);
        }
    await context.close();
    expect(missing).toEqual([]);
  });

  test("every line of a whole check", LONG, async () => {
    const { groups } = await selfcheck(checkGroups, { quick: true, workers: 2, seed: undefined, signal: undefined });
    const missing = new Set<string>();
    for (const { what, source, tolerance, shown } of groups.flatMap(({ lines }) => lines)) {
      for (const text of [what, tolerance.basis, shown.tolerance]) if (german.text(text) === null) missing.add(text);
      for (const text of [shown.published, shown.obtained]) if (german.figures(text) === null) missing.add(text);
      if (german.source(source) === null) missing.add(source);
    }
    expect([...missing]).toEqual([]);
  });

  test.each([
    ["mass: 95 % interval, linear", "Masse: 95-%-Intervall, linear"],
    ["class AA at −100 °C: ±(0.1 + 0.0017|t|)", "Klasse AA bei −100 °C: ±(0,1 + 0,0017|t|)"],
    ["t with ν = 5 at 68.27, 90, 95 %", "t mit ν = 5 bei 68,27; 90; 95 %"],
    ["9.2.2, four normals: upper endpoint", "9.2.2, vier Normalverteilungen: oberer Endpunkt"],
    [
      "100000 uniforms: outside (0, 1) or off the centres of 2⁵² cells",
      "100000 gleichverteilte Zahlen: außerhalb (0; 1) oder neben den Mitten von 2⁵² Zellen",
    ],
    ["what nobody wrote down", null],
  ])("%s", (english, words) => {
    expect(german.text(english)).toBe(words);
  });

  test("clauses and tables keep their points", () => {
    expect(german.source("JCGM 101:2008, 9.5, table 11")).toBe("JCGM 101:2008, 9.5, Tabelle 11");
  });
});
