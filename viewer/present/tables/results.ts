import type { Interval, RunRecord } from "../../../engine/index.ts";
import { decimalsFor, overUnit } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import type { Readable } from "../readable.ts";
import type { Speech } from "../statement.ts";
import { figureCell, type Cell, type Row, type Table } from "./table.ts";

/** Places that a standard error may have beyond the figure's own. */
const MORE_PLACES = 3;

/** The figures of both methods with their standard errors: estimate, u(y), the endpoints, and those without a unit. */
export function resultTable(measurand: Readable, { coverage }: Pick<RunRecord, "coverage">, speech: Speech): Table {
  const { messages, numbers } = speech;
  const words = messages.monteCarlo;
  const { symbol, unit, linear, monteCarlo: trials, validation, places } = measurand;
  const { intervals, standardErrors } = trials;
  const own = coverage.interval;
  const other = own === "symmetric" ? "shortest" : "symmetric";
  const y = { symbol };
  const u = { symbol: "u" };
  const none = messages.notApplicable;
  const at = (value: number | null): Cell =>
    figureCell(value === null ? messages.none : numbers.fixed(value, places), value);
  const error = (value: number | null | undefined): Cell =>
    value === null || value === undefined || value === 0
      ? none
      : figureCell(numbers.fixed(value, Math.max(0, Math.min(decimalsFor(value, 2), places + MORE_PLACES))), value);
  const pure = (value: number | null): Cell =>
    figureCell(value === null ? messages.none : numbers.fixed(value, 3), value);
  const row = (head: Row["head"], ...cells: readonly Cell[]): Row => ({ head, cells });
  const end = (i: 0 | 1, kind: typeof own): Row => {
    const label = i === 0 ? words.low : words.high;
    const errorAt = error(standardErrors[kind]?.[i]);
    return kind === own
      ? row(label, at(linear.interval[i]), at(intervals[kind][i]), errorAt)
      : { ...row(`${label}, ${messages.result[kind]}`, none, at(intervals[kind][i]), errorAt), fine: true };
  };
  const fine = (of: Row): Row => ({ ...of, fine: true });
  const half = ([low, high]: Interval): Cell => at((high - low) / 2);
  const needed = validation.coverageFactorNeeded;
  const ν = linear.effectiveDegreesOfFreedom;
  return {
    caption: labelOf(words.caption, { y, p: numbers.probability(trials.probability), kind: messages.result[own] }),
    columns: [
      { head: overUnit(words.figure, unit), kind: "head" },
      { head: words.linear, kind: "number", method: "linear" },
      { head: words.monteCarlo, kind: "number", method: "monte-carlo" },
      { head: words.standardError, kind: "number" },
    ],
    rows: [
      row(labelOf(words.estimate, { y }), at(linear.estimate), at(trials.estimate), error(standardErrors.estimate)),
      row(
        labelOf(words.uncertainty, { u, y }),
        at(linear.standardUncertainty),
        at(trials.standardUncertainty),
        error(standardErrors.standardUncertainty),
      ),
      fine(row(words.half, at(linear.expandedUncertainty), half(intervals[own]), none)),
      end(0, own),
      end(1, own),
      end(0, other),
      end(1, other),
      fine(row(words.least, none, at(trials.least), none)),
      fine(row(words.greatest, none, at(trials.greatest), none)),
    ],
    below: {
      head: words.withoutUnit,
      rows: [
        row(labelOf(words.factor, { k: { symbol: "k" } }), pure(linear.coverageFactor), pure(needed), none),
        row(labelOf(words.freedom, { nu: { symbol: "ν_eff" } }), figureCell(numbers.freedom(ν), ν), none, none),
        row(words.skewness, "0", pure(trials.skewness), none),
        // Of the t distribution that the budget stands for: 6/(ν − 4).
        row(
          words.kurtosis,
          ν === null ? "0" : ν > 4 ? pure(6 / (ν - 4)) : messages.none,
          pure(trials.excessKurtosis),
          none,
        ),
      ],
    },
  };
}
