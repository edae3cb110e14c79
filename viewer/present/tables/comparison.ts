import { overUnit } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import type { Readable } from "../readable.ts";
import type { Speech } from "../statement.ts";
import { standingAt, standingText } from "../verdict.ts";
import { figureCell, type Row, type Table } from "./table.ts";

/** The comparison of JCGM 101, 8.1: δ, d_low and d_high at one and at two significant digits, and the verdict. */
export function comparisonTable({ symbol, unit, validation, places }: Readable, { messages, numbers }: Speech): Table {
  const words = messages.validation;
  const y = { symbol };
  return {
    caption: labelOf(words.caption, { y }),
    columns: [
      { head: labelOf(words.digits, { u: { symbol: "u" }, y }), kind: "head" },
      { head: [{ symbol: "δ" }, overUnit("", unit)], kind: "number" },
      { head: [{ symbol: "d_low" }, overUnit("", unit)], kind: "number" },
      { head: [{ symbol: "d_high" }, overUnit("", unit)], kind: "number" },
      { head: words.verdict, kind: "text" },
    ],
    rows: validation.atDigits.map(({ significantDigits, numericalTolerance }): Row => {
      const own = significantDigits === validation.significantDigits;
      const shown = significantDigits > validation.significantDigits ? places + 1 : places;
      return {
        head: String(significantDigits),
        ...(own ? { note: words.studied, asked: true } : {}),
        cells: [
          ...[numericalTolerance, validation.dLow, validation.dHigh].map((value) =>
            figureCell(numbers.fixed(value, shown), value),
          ),
          standingText(standingAt(validation, significantDigits), messages),
        ],
      };
    }),
  };
}
