import type { RunRecord, SweepPoint } from "../../../engine/index.ts";
import { decimalsFor, overUnit, withUnit } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import { fillText } from "../fill.ts";
import type { Speech } from "../statement.ts";
import { conversionTo } from "../units.ts";
import { standingOf, standingText, type Standing } from "../verdict.ts";
import { figureCell, intervalCell, type Row, type Table } from "./table.ts";

/** A measurand at one point of a sweep, in the reader's unit. */
export interface SweptResult {
  readonly at: number;
  readonly result: SweepPoint["measurands"][string];
}

/** A sweep's results for one measurand, in the unit that the reader chose. */
export interface Swept {
  readonly unit: string;
  readonly results: readonly SweptResult[];
}

type Source = Pick<RunRecord, "sweep" | "measurands" | "coverage">;

export function sweptResults({ sweep, measurands }: Source, name: string, wanted: string | null = null): Swept {
  const own = measurands[name]!;
  const { factor, offset, unit } = (wanted === null ? null : conversionTo(own, wanted)) ?? {
    factor: 1,
    offset: 0,
    unit: own.unit,
  };
  const f = (value: number): number => value * factor + offset;
  const both = ([low, high]: readonly [number, number]): readonly [number, number] => [f(low), f(high)];
  const results = sweep!.points.map(({ at, measurands: found }): SweptResult => {
    const { linear, monteCarlo, ...rest } = found[name]!;
    return {
      at,
      result: {
        ...rest,
        linear: {
          ...linear,
          estimate: f(linear.estimate),
          standardUncertainty: linear.standardUncertainty * factor,
          expandedUncertainty: linear.expandedUncertainty * factor,
          interval: both(linear.interval),
        },
        monteCarlo: {
          estimate: monteCarlo.estimate === null ? null : f(monteCarlo.estimate),
          standardUncertainty: monteCarlo.standardUncertainty === null ? null : monteCarlo.standardUncertainty * factor,
          interval: both(monteCarlo.interval),
        },
      },
    };
  });
  return { unit, results };
}

/** At how many points the budget is validated, and at which it is not or the trials do not decide it. */
export function sweepSentence({ sweep }: Source, { results }: Swept, { messages, numbers }: Speech): string {
  const words = messages.sweep;
  const places = (standing: Standing): string =>
    numbers.list(
      results
        .filter(({ result }) => standingOf(result) === standing)
        .map(({ at }) => withUnit(numbers.plain(at), sweep!.unit)),
    );
  const held = results.filter(({ result }) => standingOf(result) === "validated").length;
  const count = numbers.whole(results.length);
  const [failing, open] = [places("notValidated"), places("undecided")];
  return [
    held === results.length
      ? fillText(words.all, { count })
      : fillText(words.some, { held: numbers.whole(held), count }),
    ...(failing === "" ? [] : [fillText(words.notAt, { places: failing })]),
    ...(open === "" ? [] : [fillText(words.openAt, { places: open })]),
  ].join(" ");
}

/** Both methods at every point. */
export function sweepTable(record: Source, name: string, { unit, results }: Swept, speech: Speech): Table {
  const { messages, numbers } = speech;
  const words = messages.sweep;
  const { quantity, unit: along } = record.sweep!;
  const { symbol } = record.measurands[name]!;
  const sizes = results.map(({ result }) => result.linear.expandedUncertainty).filter((U) => U > 0);
  const places = sizes.length === 0 ? 6 : Math.max(0, decimalsFor(Math.min(...sizes), 2));
  const text = (value: number | null): string => (value === null ? messages.none : numbers.fixed(value, places));
  const interval = ([low, high]: readonly [number, number]): string => numbers.interval([text(low), text(high)]);
  const over = (letter: string): Row["head"] => [{ symbol: letter }, overUnit("", unit)];
  const k = { symbol: "k" };
  return {
    caption: labelOf(words.caption, { y: { symbol }, p: numbers.probability(record.coverage.probability) }),
    columns: [
      { head: overUnit(quantity, along), kind: "head" },
      { head: over(symbol), kind: "number" },
      { head: over("u"), kind: "number", fine: true },
      { head: over("U"), kind: "number" },
      { head: [k], kind: "number" },
      { head: words.linearInterval, kind: "text", method: "linear", fine: true },
      { head: words.monteCarloInterval, kind: "text", method: "monte-carlo" },
      { head: labelOf(words.needed, { k }), kind: "number" },
      { head: words.budget, kind: "text" },
    ],
    rows: results.map(({ at, result }) => {
      const { linear, monteCarlo, coverageFactorNeeded: needed } = result;
      return {
        head: numbers.plain(at),
        cells: [
          figureCell(text(linear.estimate), linear.estimate),
          figureCell(numbers.fixed(linear.standardUncertainty, places + 1), linear.standardUncertainty),
          figureCell(text(linear.expandedUncertainty), linear.expandedUncertainty),
          figureCell(numbers.fixed(linear.coverageFactor, 2), linear.coverageFactor),
          intervalCell(interval(linear.interval), linear.interval),
          intervalCell(interval(monteCarlo.interval), monteCarlo.interval),
          figureCell(needed === null ? messages.none : numbers.fixed(needed, 2), needed),
          standingText(standingOf(result), messages),
        ],
      };
    }),
  };
}
