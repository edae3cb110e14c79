import { describe, expect, test } from "vitest";
import { columnsFor, withPasted } from "../../../../viewer/page/new-study/spreadsheet.ts";
import { partOf, relativeIn, resolvedPart } from "../../../../viewer/page/new-study/relative.ts";
import { BLANK_ROW, statementOf, type Row } from "../../../../viewer/page/new-study/row.ts";
import { kinds } from "./kinds.ts";

describe("an uncertainty typed as a part of the estimate", () => {
  test.each([
    ["halfWidth", "0.5 %", 200, 1],
    ["standardUncertainty", "±0,3%", 3, 0.009],
    ["expandedUncertainty", "20 ppm", -1000, 0.02],
    ["halfWidth", "2 ‰", 0.1, 0.0002],
  ])("%s %s of %d is %d", (field, text, estimate, value) => {
    expect(partOf(relativeIn(field, text)!, estimate)).toBe(value);
  });

  test.each([
    ["degreesOfFreedom", "5 %"],
    ["halfWidth", "0.5"],
    ["halfWidth", "% 5"],
    ["halfWidth", "0.5 %%"],
    ["halfWidth", "%"],
  ])("%s %s is none", (field, text) => {
    expect(relativeIn(field, text)).toBeNull();
  });

  const row = (fields: Row["fields"], how = "certificate"): Row => ({ ...BLANK_ROW, unit: "Ω", how, fields });

  test("is stated in the unit of the row", () => {
    const fields = { estimate: "100,5", expandedUncertainty: "0.02 %", coverageFactor: "2" };
    expect(statementOf(row(fields), kinds)).toMatchObject({
      distribution: "normal",
      estimate: 100.5,
      expandedUncertainty: 0.0201,
      coverageFactor: 2,
    });
    expect(resolvedPart("expandedUncertainty", { ...fields, estimate: "0" })).toBeNull();
    expect(resolvedPart("expandedUncertainty", { ...fields, estimate: "wide" })).toBeNull();
  });

  const pasted = (text: string): Row =>
    withPasted([BLANK_ROW], text, { row: 0, column: "symbol" }, columnsFor("additive"), true).rows[0]!;

  test("comes from a spreadsheet's cell, and from the unit of its heading", () => {
    for (const text of [
      "Symbol\tValue\tUnit\tDistribution\tUncertainty\nR\t100\tΩ\trect\t0.1 %",
      "Symbol\tValue\tUnit\tDistribution\tUncertainty / %\nR\t100\tΩ\trect\t0.1",
    ])
      expect(statementOf(pasted(text), kinds)).toMatchObject({ estimate: 100, halfWidth: 0.1 });
    // In a row in per cent the unit of the heading is the row's.
    expect(
      statementOf(pasted("Symbol\tValue\tUnit\tDistribution\tUncertainty / %\nh\t45\t%\trect\t1.5"), kinds),
    ).toMatchObject({ estimate: 45, halfWidth: 1.5 });
  });

  test("a heading's unit that is not the row's is kept beside the figure, for the form to name", () => {
    const { fields, unit } = pasted("Symbol\tValue\tUnit\tDistribution\tUncertainty / mK\nt\t37\t°C\trect\t2.5");
    expect([fields["halfWidth"], unit]).toEqual(["2.5 mK", "°C"]);
  });
});
