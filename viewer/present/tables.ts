import type { JointRecord, MeasurandRecord } from "../../engine/index.ts";
import type { Messages } from "./messages/messages.ts";
import { english, withUnit, type Numbers } from "./numbers.ts";
import { labelOf } from "./pictures/label.ts";
import { normalPairFactor } from "./pictures/pair.ts";
import type { Label } from "./pictures/scene.ts";
import type { Readable } from "./readable.ts";

/** A row of a table: its head and its cells, the same in every medium. */
export interface Row {
  readonly head: Label;
  readonly cells: readonly string[];
}

type Quantities = Readonly<Record<string, Pick<MeasurandRecord, "symbol">>>;

const symbolIn = (quantities: Quantities, name: string): { readonly symbol: string } => ({
  symbol: quantities[name]?.symbol ?? name,
});

/** Correlation of every pair of measurands: by the linear budget, and by Monte Carlo. */
export function correlationRows(
  { measurands, linear, monteCarlo }: JointRecord,
  quantities: Quantities,
  { none }: Pick<Messages, "none">,
  { fixed }: Numbers = english,
): Row[] {
  return measurands.flatMap((a, i) =>
    measurands.slice(i + 1).map((b, offset): Row => {
      const j = i + 1 + offset;
      return {
        head: [symbolIn(quantities, a), ", ", symbolIn(quantities, b)],
        cells: [
          fixed(linear.correlation[i]![j]!, 4),
          monteCarlo === null ? none : fixed(monteCarlo.correlation[i]![j]!, 4),
        ],
      };
    }),
  );
}

/** Factors of the coverage regions of all measurands, and of each pair if there are more than two: normal, Monte Carlo. */
export function regionRows(
  { ellipsoid, rectangle, pairs, probability, measurands }: JointRecord,
  quantities: Quantities,
  { joint: words }: Pick<Messages, "joint">,
  { fixed }: Numbers = english,
): Row[] {
  const row = (head: Label, normal: number, monteCarlo: number): Row => ({
    head,
    cells: [fixed(normal, 3), fixed(monteCarlo, 3)],
  });
  return [
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
  ];
}

/** The budget and the budget with next-order terms: first order, with second. None if the record has no such terms. */
export function secondOrderRows(
  { linear, validation, secondOrder, symbol, unit, places }: Readable,
  messages: Pick<Messages, "secondOrder" | "validation" | "monteCarlo">,
  { fixed }: Numbers = english,
): Row[] {
  if (secondOrder === null) return [];
  const { secondOrder: words, validation: verdicts } = messages;
  const verdict = (validated: boolean): string => (validated ? verdicts.validated : verdicts.notValidated);
  const row = (head: Label, first: number, second: number): Row => ({
    head,
    cells: [fixed(first, places), fixed(second, places)],
  });
  return [
    row(
      labelOf(words.estimate, { y: { symbol }, bias: withUnit(fixed(secondOrder.bias, places), unit) }),
      linear.estimate,
      linear.estimate + secondOrder.bias,
    ),
    row(words.uncertainty, linear.standardUncertainty, secondOrder.standardUncertainty),
    row(verdicts.lowMove, linear.interval[0], secondOrder.interval[0]),
    row(verdicts.highMove, linear.interval[1], secondOrder.interval[1]),
    row([{ symbol: "d_low" }], validation.dLow, secondOrder.dLow),
    row([{ symbol: "d_high" }], validation.dHigh, secondOrder.dHigh),
    row(
      labelOf(words.tolerance, { delta: { symbol: "δ" } }),
      validation.numericalTolerance,
      validation.numericalTolerance,
    ),
    { head: words.verdict, cells: [verdict(validation.validated), verdict(secondOrder.validated)] },
  ];
}
