import type { RunRecord } from "../../../engine/index.ts";
import { fillText } from "../fill.ts";
import { overUnit, withUnit } from "../numbers.ts";
import type { Readable } from "../readable.ts";
import type { Speech } from "../statement.ts";
import { digitsScene } from "./digits.ts";
import { labelOf } from "./label.ts";
import type { Scene } from "./scene.ts";

/** The endpoints' differences against δ at one and at two digits as a picture; `null` if δ is 0. */
export function digitsOf(
  { coverage }: Pick<RunRecord, "coverage">,
  { linear, monteCarlo, validation, unit, places }: Readable,
  { messages, numbers }: Speech,
  width: number,
): Scene | null {
  const words = messages.validation;
  if (validation.numericalTolerance === 0) return null;
  const interval = monteCarlo.intervals[coverage.interval];
  const errors = monteCarlo.standardErrors[coverage.interval];
  const text = (value: number): string => numbers.fixed(value, places);
  const tolerances = validation.atDigits
    .toSorted((a, b) => a.significantDigits - b.significantDigits)
    .map(({ significantDigits, numericalTolerance }) => ({
      tolerance: numericalTolerance,
      digits: significantDigits === 1 ? words.oneDigit : words.twoDigits,
    }));
  const differences = ([0, 1] as const).map((end) => interval[end] - linear.interval[end]) as [number, number];
  const drawn = (end: 0 | 1) => ({
    label: end === 0 ? messages.monteCarlo.low : messages.monteCarlo.high,
    difference: differences[end],
    standardError: errors?.[end] ?? null,
  });
  const told = (delta: string, { tolerance, digits }: (typeof tolerances)[number]): string =>
    fillText(words.digitsTolerance, { delta, digits, value: text(tolerance) });
  return digitsScene(
    {
      name: fillText(words.digitsName, {
        low: text(differences[0]),
        high: text(differences[1]),
        tolerances: tolerances.map((one) => told("δ", one)).join(", "),
        unit: withUnit("", unit).trimStart() === "" ? "" : ` ${unit}`,
      }),
      differences: [drawn(0), drawn(1)],
      tolerances: tolerances.map(({ tolerance, digits }) => ({
        tolerance,
        label: labelOf(words.digitsTolerance, { delta: { symbol: "δ" }, digits, value: text(tolerance) }),
      })),
      axisLabel: overUnit(messages.endpointsPanel.distance, unit),
      width,
    },
    numbers,
  );
}
