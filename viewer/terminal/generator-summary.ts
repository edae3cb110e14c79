import type { GeneratorComparison } from "../../engine/internal.ts";
import { fillText } from "../present/fill.ts";
import { en } from "../present/messages/en/index.ts";
import { decimalsFor, english } from "../present/numbers.ts";
import { tableLines } from "./table.ts";

const { fixed } = english;
const words = en.generators;

/** Two runs with unrelated generators beside one another. */
export function generatorSummary({ first, second, figures, limit, agree }: GeneratorComparison): string {
  const table = tableLines(
    [
      { heading: words.measurand, align: "left" },
      { heading: words.figure, align: "left" },
      { heading: words.first, align: "right" },
      { heading: words.second, align: "right" },
      { heading: words.standardError, align: "right" },
      { heading: words.ratio, align: "right" },
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
  const verdict = fillText(agree ? words.agree : words.differ, { limit: fixed(limit, 2) });
  const generators = [fillText(words.firstIs, { generator: first }), fillText(words.secondIs, { generator: second })];
  return [...generators, "", ...table, "", verdict, ""].join("\n");
}
