import type { GeneratorComparison } from "../../engine/index.ts";
import { decimalsFor, english } from "../present/numbers.ts";
import { tableLines } from "./table.ts";

const { fixed } = english;

/** Two runs with unrelated generators beside one another. */
export function generatorSummary({ first, second, figures, limit, agree }: GeneratorComparison): string {
  const table = tableLines(
    [
      { heading: "measurand", align: "left" },
      { heading: "figure", align: "left" },
      { heading: "first", align: "right" },
      { heading: "second", align: "right" },
      { heading: "standard error", align: "right" },
      { heading: "difference in standard errors", align: "right" },
    ],
    figures.map((row) => {
      const decimals = decimalsFor(row.standardError, 2);
      return [
        row.measurand,
        row.figure,
        fixed(row.first, decimals),
        fixed(row.second, decimals),
        english.significant(row.standardError, 2),
        fixed(row.ratio, 2),
      ];
    }),
  );
  const verdict = agree
    ? `The two agree: no difference exceeds ${fixed(limit, 2)} standard errors, which chance does once in a thousand such comparisons.`
    : `The two differ by more than ${fixed(limit, 2)} standard errors, which chance does once in a thousand such comparisons. Repeat with another seed; if they differ again, do not use the result.`;
  return `First:  ${first}\nSecond: ${second}\n\n${table.join("\n")}\n\n${verdict}\n`;
}
