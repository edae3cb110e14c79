import type { MeasurandRecord } from "../../../engine/index.ts";
import { fillText } from "../fill.ts";
import { overUnit, quotientUnit } from "../numbers.ts";
import { densities } from "../pictures/histogram.ts";
import type { Speech } from "../statement.ts";
import { figureCell, type Row, type Table } from "./table.ts";

/** Significant digits of a bin's density. */
const DENSITY_DIGITS = 4;

/** The bins of a histogram: what its picture draws. */
export function binsTable(
  { unit, monteCarlo }: Pick<MeasurandRecord, "unit" | "monteCarlo">,
  places: number,
  { messages, numbers }: Speech,
): Table {
  const words = messages.distributions;
  const { low, width, counts, below, above } = monteCarlo.histogram;
  const heights = densities(monteCarlo.histogram, monteCarlo.trials);
  return {
    caption: fillText(words.bins, { below: numbers.whole(below), above: numbers.whole(above) }),
    columns: [
      { head: overUnit(words.low, unit), kind: "head" },
      { head: overUnit(words.high, unit), kind: "number" },
      { head: words.trialsHead, kind: "number" },
      { head: overUnit(words.density, quotientUnit("1", unit)), kind: "number" },
    ],
    rows: counts.map((count, i): Row => {
      const [from, to] = [low + i * width, low + (i + 1) * width];
      return {
        head: numbers.fixed(from, places),
        value: from,
        cells: [
          figureCell(numbers.fixed(to, places), to),
          figureCell(numbers.whole(count), count),
          figureCell(numbers.significant(heights[i]!, DENSITY_DIGITS), heights[i]!),
        ],
      };
    }),
  };
}

/** The recorded points of the distribution function. */
export function functionTable(
  { unit, monteCarlo }: Pick<MeasurandRecord, "unit" | "monteCarlo">,
  places: number,
  { messages, numbers }: Speech,
): Table {
  const words = messages.distributions;
  return {
    caption: words.points,
    columns: [
      { head: words.probability, kind: "head" },
      { head: overUnit(words.value, unit), kind: "number" },
    ],
    rows: monteCarlo.distributionFunction.map(([p, value]): Row => ({
      head: numbers.plain(p),
      value: p,
      cells: [figureCell(numbers.fixed(value, places), value)],
    })),
  };
}
