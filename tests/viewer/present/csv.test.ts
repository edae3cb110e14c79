import { expect, test } from "vitest";
import { csvText } from "../../../viewer/present/csv.ts";

// Common practice, as OWASP's page on CSV injection describes it (from memory): a cell that begins with =, +, - or @ is a
// formula to a spreadsheet.
test.each([
  ['=HYPERLINK("http://x")', `"'=HYPERLINK(""http://x"")"`],
  ["+1+cmd", "'+1+cmd"],
  ["@SUM(A1)", "'@SUM(A1)"],
  ["-2+3", "'-2+3"],
  [" =1+1", "'=1+1"],
  ["\t=1+1", "'=1+1"],
  ["＝1+1", "'＝1+1"],
  // Numbers stay numbers, signs and all.
  ["-1.5", "-1.5"],
  ["+1.5", "+1.5"],
  ["\u22121.5", "-1.5"],
  ["-1.5e-7", "-1.5e-7"],
  ["12\u202f345.6", "12345.6"],
  ["bath, axial", '"bath, axial"'],
  ["plain", "plain"],
])("%s is exported as %s", (cell, exported) => {
  expect(csvText([[cell]])).toBe(`${exported}\r\n`);
});
