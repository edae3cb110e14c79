import type { JointRecord, MeasurandRecord, PairRecord } from "../../../engine/index.ts";
import { withUnit } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import { normalPairFactor } from "../pictures/pair.ts";
import type { Label } from "../pictures/scene.ts";
import { fillText } from "../fill.ts";
import type { Speech } from "../statement.ts";
import type { Row, Table } from "./table.ts";

type Quantities = Readonly<Record<string, Pick<MeasurandRecord, "symbol" | "unit">>>;

const symbolIn = (quantities: Quantities, name: string): { readonly symbol: string } => ({
  symbol: quantities[name]?.symbol ?? name,
});

/** A correlation coefficient as every table of it prints it. */
export const correlationText = (coefficient: number, { numbers }: Speech): string => numbers.fixed(coefficient, 4);

/** Correlation of every pair of measurands: by the linear budget, and by Monte Carlo. */
export function correlationTable(found: JointRecord, quantities: Quantities, speech: Speech): Table {
  const { messages } = speech;
  const words = messages.joint;
  const { measurands, linear, monteCarlo } = found;
  return {
    caption: words.correlation,
    columns: [
      { head: words.pair, kind: "head" },
      { head: messages.monteCarlo.linear, kind: "number", method: "linear" },
      { head: messages.monteCarlo.monteCarlo, kind: "number", method: "monte-carlo" },
    ],
    rows: measurands.flatMap((a, i) =>
      measurands.slice(i + 1).map((b, offset): Row => {
        const j = i + 1 + offset;
        return {
          head: [symbolIn(quantities, a), ", ", symbolIn(quantities, b)],
          cells: [
            correlationText(linear.correlation[i]![j]!, speech),
            monteCarlo === null ? messages.none : correlationText(monteCarlo.correlation[i]![j]!, speech),
          ],
        };
      }),
    ),
  };
}

/** Factors of the coverage regions of all measurands, and of each pair if there are more than two: normal, Monte Carlo. */
export function factorTable(found: JointRecord, quantities: Quantities, { messages, numbers }: Speech): Table {
  const words = messages.joint;
  const { ellipsoid, rectangle, pairs, probability, measurands } = found;
  const row = (head: Label, normal: number, monteCarlo: number): Row => ({
    head,
    cells: [numbers.fixed(normal, 3), numbers.fixed(monteCarlo, 3)],
  });
  return {
    caption: fillText(words.factors, { p: numbers.probability(probability) }),
    columns: [
      { head: words.region, kind: "head" },
      { head: words.normal, kind: "number", method: "linear" },
      { head: messages.monteCarlo.monteCarlo, kind: "number", method: "monte-carlo" },
    ],
    rows: [
      ...(ellipsoid === null
        ? []
        : [row(labelOf(words.ellipsoid, { k: { symbol: "k_p" } }), ellipsoid.normalFactor, ellipsoid.factor)]),
      ...(rectangle === null
        ? []
        : [row(labelOf(words.rectangle, { k: { symbol: "k_q" } }), rectangle.normalFactor, rectangle.factor)]),
      ...(measurands.length === 2 ? [] : pairs).flatMap(({ between: [a, b], ellipseFactor }) =>
        ellipseFactor === null
          ? []
          : [
              row(
                labelOf(words.pairFactor, { a: symbolIn(quantities, a), b: symbolIn(quantities, b) }),
                normalPairFactor(probability),
                ellipseFactor,
              ),
            ],
      ),
    ],
  };
}

/** Unit of an area over two quantities. */
function areaUnit(a: string, b: string): string {
  if (a === "1" || b === "1") return a === "1" ? b : a;
  return a === b ? (/[/·\s]/.test(a) ? `(${a})²` : `${a}²`) : `${a}·${b}`;
}

/** The area of a pair's smallest region and the share of the trials it holds. */
export function regionFigures(
  { between: [a, b], grid }: PairRecord,
  quantities: Quantities,
  { numbers }: Speech,
): { readonly area: string; readonly held: string } {
  return {
    area: withUnit(numbers.significant(grid.area, 3), areaUnit(quantities[a]!.unit, quantities[b]!.unit)),
    held: numbers.percent(grid.held, 2),
  };
}

/** The smallest region of every pair. */
export function regionTable({ pairs, probability }: JointRecord, quantities: Quantities, speech: Speech): Table {
  const words = speech.messages.joint;
  return {
    caption: fillText(words.regions, { p: speech.numbers.probability(probability) }),
    columns: [
      { head: words.pair, kind: "head" },
      { head: words.area, kind: "text" },
      { head: words.held, kind: "number" },
    ],
    rows: pairs.map((pair): Row => {
      const { area, held } = regionFigures(pair, quantities, speech);
      return {
        head: [symbolIn(quantities, pair.between[0]), ", ", symbolIn(quantities, pair.between[1])],
        cells: [area, held],
      };
    }),
  };
}
