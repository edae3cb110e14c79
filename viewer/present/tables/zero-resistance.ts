import type { CalibrationResult } from "../../../models/index.ts";
import { fillText } from "../fill.ts";
import { decimalsFor, overUnit } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import type { Speech } from "../statement.ts";
import { figureCell, type Table } from "./table.ts";

/** Coverage factor of the uncertainties in it (JCGM 100, 6.2). */
const K = 2;

/** R(0 °C) before and after the other points, and its change in Ω and mK; no rows without two points at 0 °C. */
export function zeroTable({ zero }: CalibrationResult, { messages, numbers }: Speech): Table {
  const words = messages.calibration;
  const R = { symbol: "R" };
  const columns: Table["columns"] = [
    { head: words.zeroWhen, kind: "head" },
    { head: labelOf(words.zeroResistance, { R, unit: overUnit("", "Ω") }), kind: "number" },
    { head: labelOf(words.uncertainty, { U: { symbol: "U" }, unit: overUnit("", "Ω") }), kind: "number" },
    { head: fillText(words.zeroChange, { unit: overUnit("", "mK") }), kind: "number" },
    { head: labelOf(words.uncertainty, { U: { symbol: "U" }, unit: overUnit("", "mK") }), kind: "number" },
  ];
  const caption = labelOf(words.zero, { R, U: { symbol: "U" }, k: { symbol: "k" } });
  if (zero === null) return { caption, columns, rows: [] };
  const U = (of: number): number => K * of;
  // Two digits of the smallest uncertainty, so that the change is what the two figures show.
  const ohm = Math.max(0, decimalsFor(U(zero.resistanceUncertainty), 2));
  const milli = Math.max(0, decimalsFor(U(zero.temperatureUncertainty) * 1e3, 2));
  const resistance = (value: number) => figureCell(numbers.fixed(value, ohm), value);
  const millikelvin = (value: number) => figureCell(numbers.fixed(value * 1e3, milli), value * 1e3);
  const at = (text: string, { number, resistance: found, standardUncertainty }: typeof zero.before) => ({
    head: fillText(text, { number: numbers.whole(number) }),
    cells: [resistance(found), resistance(U(standardUncertainty)), messages.none, messages.none],
  });
  return {
    caption,
    columns,
    rows: [
      at(words.zeroBefore, zero.before),
      at(words.zeroAfter, zero.after),
      {
        head: zero.differs ? words.zeroMoved : words.zeroHeld,
        cells: [
          resistance(zero.resistance),
          resistance(U(zero.resistanceUncertainty)),
          millikelvin(zero.temperature),
          millikelvin(U(zero.temperatureUncertainty)),
        ],
      },
    ],
  };
}
