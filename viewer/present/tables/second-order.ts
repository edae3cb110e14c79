import { overUnit, withUnit } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import type { Label } from "../pictures/scene.ts";
import type { Readable } from "../readable.ts";
import type { Speech } from "../statement.ts";
import { standingOf, standingText } from "../verdict.ts";
import type { Row, Table } from "./table.ts";

/** The budget beside the budget with next-order terms; `null` if the record has none, or they add nothing. */
export function secondOrderTable(measurand: Readable, { messages, numbers }: Speech): Table | null {
  const { linear, validation, secondOrder, symbol, unit, places } = measurand;
  if (secondOrder === null || secondOrder.terms.length === 0) return null;
  const { secondOrder: words, monteCarlo: figures } = messages;
  const text = (value: number): string => numbers.fixed(value, places);
  const row = (head: Label, first: number, second: number): Row => ({ head, cells: [text(first), text(second)] });
  const fine = (of: Row): Row => ({ ...of, fine: true });
  const y = { symbol };
  return {
    caption: labelOf(words.caption, { y }),
    columns: [
      { head: overUnit(figures.figure, unit), kind: "head" },
      { head: words.first, kind: "number", method: "linear" },
      { head: words.second, kind: "number", method: "linear" },
    ],
    rows: [
      row(
        labelOf(words.estimate, { y, bias: withUnit(text(secondOrder.bias), unit) }),
        linear.estimate,
        linear.estimate + secondOrder.bias,
      ),
      row(
        labelOf(figures.uncertainty, { u: { symbol: "u" }, y }),
        linear.standardUncertainty,
        secondOrder.standardUncertainty,
      ),
      row(figures.low, linear.interval[0], secondOrder.interval[0]),
      row(figures.high, linear.interval[1], secondOrder.interval[1]),
      fine(row([{ symbol: "d_low" }], validation.dLow, secondOrder.dLow)),
      fine(row([{ symbol: "d_high" }], validation.dHigh, secondOrder.dHigh)),
      fine(
        row(
          labelOf(words.tolerance, { delta: { symbol: "δ" } }),
          validation.numericalTolerance,
          validation.numericalTolerance,
        ),
      ),
      {
        head: messages.validation.verdict,
        cells: [
          standingText(standingOf(validation), messages),
          standingText(standingOf({ ...validation, validated: secondOrder.validated }), messages),
        ],
      },
    ],
  };
}
