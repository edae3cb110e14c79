import type { Certificate } from "../../../models/index.ts";
import { fillText } from "../fill.ts";
import { withUnit, type Numbers } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import type { Speech } from "../statement.ts";
import { inMilli } from "../survey-figures.ts";
import type { Table } from "./table.ts";

/** Three digits behind the decimal sign of a mK: the microkelvin. */
const PLACES = 3;
const mK = (kelvin: number, numbers: Numbers): string => inMilli(kelvin, PLACES, numbers);

/** The points of a certificate in order of temperature, with the uncertainty as it is stated. */
export function certificatePoints({ points }: Pick<Certificate, "points">, { messages, numbers }: Speech): Table {
  const words = messages.certificate;
  const stated = (point: Certificate["points"][number]): string =>
    point.standardUncertainty !== undefined
      ? words.standard
      : point.coverageFactor === undefined
        ? fillText(words.expandedProbability, { p: numbers.probability(point.coverageProbability!) })
        : fillText(words.expandedFactor, { k: numbers.plain(point.coverageFactor) });
  return {
    caption: words.points,
    columns: [
      { head: words.temperature, kind: "head" },
      { head: words.correction, kind: "number" },
      { head: labelOf(words.uncertainty, { u: { symbol: "u" }, U: { symbol: "U" } }), kind: "number" },
      { head: words.stated, kind: "text" },
      { head: labelOf(words.freedom, { nu: { symbol: "ν" } }), kind: "number" },
    ],
    rows: points
      .toSorted((a, b) => a.temperature - b.temperature)
      .map((point) => ({
        head: numbers.plain(point.temperature),
        cells: [
          mK(point.correction, numbers),
          mK(point.standardUncertainty ?? point.expandedUncertainty!, numbers),
          stated(point),
          numbers.freedom(point.effectiveDegreesOfFreedom ?? null),
        ],
      })),
  };
}

/** The corrections of this calibration and of the earlier ones, in order of time; no rows without a history. */
export function certificateHistory(
  { history = [], calibrated, points }: Pick<Certificate, "history" | "calibrated" | "points">,
  { messages, numbers }: Speech,
): Table {
  const words = messages.certificate;
  const all = [...history, { calibrated, points }].toSorted((a, b) => (a.calibrated < b.calibrated ? -1 : 1));
  const temperatures = [...new Set(all.flatMap((one) => one.points.map(({ temperature }) => temperature)))].toSorted(
    (a, b) => a - b,
  );
  return {
    caption: words.history,
    columns: [
      { head: words.calibrated, kind: "head" },
      ...temperatures.map((temperature) => ({
        head: withUnit(numbers.plain(temperature), "°C"),
        kind: "number" as const,
      })),
    ],
    rows:
      history.length === 0
        ? []
        : all.map((one) => ({
            head: one.calibrated,
            cells: temperatures.map((temperature) => {
              const found = one.points.find((point) => point.temperature === temperature);
              return found === undefined ? "" : mK(found.correction, numbers);
            }),
          })),
  };
}
