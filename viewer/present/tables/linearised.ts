import type { LinearisedRecord, RunRecord } from "../../../engine/index.ts";
import { overUnit } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import type { Readable } from "../readable.ts";
import type { Speech } from "../statement.ts";
import { figureCell, type Row, type Table } from "./table.ts";

/** A linearised distribution that is to be had. */
export type LinearisedDistribution = LinearisedRecord & { readonly kind: "distribution" };

/** The linear budget, the linearised model with the stated distributions, and Monte Carlo: estimate, u, endpoints, k. */
export function linearisedTable(
  measurand: Pick<Readable, "symbol" | "unit" | "places" | "linear"> & {
    readonly monteCarlo: Pick<Readable["monteCarlo"], "estimate" | "standardUncertainty" | "intervals">;
    readonly validation: Pick<Readable["validation"], "coverageFactorNeeded">;
  },
  found: LinearisedDistribution,
  { coverage }: Pick<RunRecord, "coverage">,
  { messages, numbers }: Speech,
): Table {
  const { symbol, unit, places, linear, monteCarlo, validation } = measurand;
  const { linearised: words, monteCarlo: figures } = messages;
  const text = (value: number | null, decimals: number): string =>
    value === null ? messages.none : numbers.fixed(value, decimals);
  const row = (head: Row["head"], values: readonly (number | null)[], decimals = places): Row => ({
    head,
    cells: values.map((value) => figureCell(text(value, decimals), value)),
  });
  const y = { symbol };
  const kind = coverage.interval;
  const end = (which: 0 | 1): Row =>
    row(which === 0 ? figures.low : figures.high, [
      linear.interval[which],
      found.intervals[kind][which],
      monteCarlo.intervals[kind][which],
    ]);
  return {
    caption: labelOf(words.caption, { y, p: numbers.probability(coverage.probability), kind: messages.result[kind] }),
    columns: [
      { head: overUnit(figures.figure, unit), kind: "head" },
      { head: figures.linear, kind: "number", method: "linear" },
      { head: words.linearised, kind: "number" },
      { head: figures.monteCarlo, kind: "number", method: "monte-carlo" },
    ],
    rows: [
      row(labelOf(figures.estimate, { y }), [linear.estimate, found.estimate, monteCarlo.estimate]),
      row(labelOf(figures.uncertainty, { u: { symbol: "u" }, y }), [
        linear.standardUncertainty,
        found.standardUncertainty,
        monteCarlo.standardUncertainty,
      ]),
      end(0),
      end(1),
    ],
    below: {
      head: figures.withoutUnit,
      rows: [
        row(
          labelOf(words.factor, { k: { symbol: "k" } }),
          [linear.coverageFactor, found.coverageFactor, validation.coverageFactorNeeded],
          3,
        ),
      ],
    },
  };
}
