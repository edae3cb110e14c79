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
  /** Of a grid: the second quantity; else `null`. */
  readonly second: number | null;
  readonly part: string | null;
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
  const results = sweep!.points.map(({ at, second = null, part = null, measurands: found }): SweptResult => {
    const { linear, monteCarlo, ...rest } = found[name]!;
    return {
      at,
      second,
      part,
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

/** A longer list of points is cut. */
const MOST_NAMED = 12;

/** At how many points the budget is validated, and at which it is not or the trials do not decide it. */
export function sweepSentence({ sweep }: Source, { results }: Swept, { messages, numbers }: Speech): string {
  const words = messages.sweep;
  const name = ({ at, second, part }: SweptResult): string =>
    [
      withUnit(numbers.plain(at), sweep!.unit),
      ...(second === null ? [] : [withUnit(numbers.plain(second), sweep!.second!.unit)]),
      ...(part === null ? [] : [part]),
    ].join("/");
  const places = (standing: Standing): string => {
    const found = results.filter(({ result }) => standingOf(result) === standing).map(name);
    return found.length <= MOST_NAMED
      ? numbers.list(found)
      : fillText(words.andOthers, {
          places: numbers.list(found.slice(0, MOST_NAMED)),
          count: numbers.whole(found.length - MOST_NAMED),
        });
  };
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
  const { second } = record.sweep!;
  const parted = results.some(({ part }) => part !== null);
  return {
    caption: labelOf(words.caption, { y: { symbol }, p: numbers.probability(record.coverage.probability) }),
    columns: [
      { head: overUnit(speech.translate(quantity), along), kind: "head" },
      ...(second === undefined
        ? []
        : [{ head: overUnit(speech.translate(second.quantity), second.unit), kind: "number" } as const]),
      ...(parted ? [{ head: words.part, kind: "text" } as const] : []),
      { head: over(symbol), kind: "number" },
      { head: over("u"), kind: "number", fine: true },
      { head: over("U"), kind: "number" },
      { head: [k], kind: "number" },
      { head: words.linearInterval, kind: "text", method: "linear", fine: true },
      { head: words.monteCarloInterval, kind: "text", method: "monte-carlo" },
      { head: labelOf(words.needed, { k }), kind: "number" },
      { head: words.budget, kind: "text" },
    ],
    rows: results.map(({ at, second: other, part, result }) => {
      const { linear, monteCarlo, coverageFactorNeeded: needed } = result;
      return {
        head: numbers.plain(at),
        cells: [
          ...(other === null ? [] : [numbers.plain(other)]),
          ...(parted ? [part ?? messages.none] : []),
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

/** Columns of a grid's table, and lines of its picture: more are left to the files. */
const MOST_COLUMNS = 8;

/** Values of a grid's second quantity that are shown, both ends among them. */
export function shownOfGrid({ results }: Swept): readonly number[] {
  const values = [...new Set(results.flatMap(({ second }) => (second === null ? [] : [second])))].toSorted(
    (a, b) => a - b,
  );
  if (values.length <= MOST_COLUMNS) return values;
  return Array.from(
    { length: MOST_COLUMNS },
    (_, i) => values[Math.round((i * (values.length - 1)) / (MOST_COLUMNS - 1))]!,
  );
}

/** U of the linear budget over a grid: the first quantity down, the second across; a mark where it is not validated. */
export function gridTable(record: Source, name: string, swept: Swept, speech: Speech): Table {
  const { messages, numbers } = speech;
  const words = messages.sweep;
  const { quantity, unit: along, second } = record.sweep!;
  const { symbol } = record.measurands[name]!;
  const columns = shownOfGrid(swept);
  const sizes = swept.results.map(({ result }) => result.linear.expandedUncertainty).filter((U) => U > 0);
  const places = sizes.length === 0 ? 6 : Math.max(0, decimalsFor(Math.min(...sizes), 2));
  const keyOf = (at: number, part: string | null): string => `${at} ${part ?? ""}`;
  const rows = new Map<string, SweptResult[]>();
  for (const result of swept.results) {
    const key = keyOf(result.at, result.part);
    rows.set(key, [...(rows.get(key) ?? []), result]);
  }
  return {
    caption: labelOf(words.gridCaption, {
      U: { symbol: "U" },
      y: { symbol },
      unit: swept.unit,
      second: overUnit(second!.quantity, second!.unit),
    }),
    columns: [
      { head: overUnit(quantity, along), kind: "head" },
      ...columns.map((value) => ({ head: numbers.plain(value), kind: "number" as const })),
    ],
    rows: [...rows.values()].map((across) => ({
      head: [numbers.plain(across[0]!.at), ...(across[0]!.part === null ? [] : [` ${across[0]!.part}`])].join(""),
      cells: columns.map((value) => {
        const found = across.find(({ second: other }) => other === value);
        if (found === undefined) return messages.none;
        const { linear } = found.result;
        const mark = standingOf(found.result) === "validated" ? "" : "*";
        return figureCell(`${numbers.fixed(linear.expandedUncertainty, places)}${mark}`, linear.expandedUncertainty);
      }),
    })),
  };
}
