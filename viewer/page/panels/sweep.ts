import type { MeasurandRecord, RunRecord, SweepPoint } from "../../../engine/index.ts";
import { html, type Child } from "../draw/node.ts";
import {
  decimalsFor,
  fixed,
  overUnit,
  plain,
  probabilityText,
  rangeWithUnit,
  withUnit,
} from "../../present/numbers.ts";
import { swatch } from "../draw/swatch.ts";
import { sweepPicture, type SweptPoint } from "../draw/sweep-picture.ts";
import { symbolSpan } from "../draw/symbol.ts";
import { conversionTo } from "../../present/units.ts";
import type { Panel } from "./panel.ts";

type Result = SweepPoint["measurands"][string];

interface Row {
  readonly at: number;
  readonly result: Result;
}

/** The result over a range, where the study sweeps one. */
export const sweep: Panel = {
  id: "sweep",
  title: "Over the range",
  appliesTo: ({ sweep: swept }) => swept != null,
  render(element, record, name, { reading, width }) {
    const { quantity, unit: along, points } = record.sweep!;
    const { unit, rows } = converted(record, name, reading.unit ?? null);
    const { symbol } = record.measurands[name]!;
    const failing = rows.filter(({ result }) => !result.validated);
    const where = failing.map(({ at }) => withUnit(plain(at), along)).join(", ");
    element.replaceChildren(
      html(
        "p",
        {},
        failing.length === 0
          ? `The budget is validated at all ${points.length} points.`
          : failing.length === points.length
            ? "The budget is validated at none of the points."
            : `The budget is validated at ${points.length - failing.length} of ${points.length} points; not at ${where}.`,
      ),
      html(
        "p",
        { class: "key" },
        html("span", {}, swatch("monte-carlo"), `Monte Carlo, ${probabilityText(record.coverage.probability)} band`),
        html("span", {}, swatch("linear"), "linear interval"),
      ),
      sweepPicture({
        name: `Estimate and both intervals against ${quantity}, from ${withUnit(plain(points[0]!.at), along)} to ${withUnit(plain(points.at(-1)!.at), along)}.`,
        title: symbolSpan(symbol, overUnit("", unit)),
        points: rows.map(({ at, result: { linear, monteCarlo } }): SweptPoint => ({
          at,
          linear: [linear.interval[0], linear.estimate, linear.interval[1]],
          monteCarlo: [monteCarlo.interval[0], monteCarlo.estimate, monteCarlo.interval[1]],
        })),
        width,
        height: Math.round(Math.min(260, Math.max(180, 0.28 * width))),
        axisLabel: overUnit(quantity, along),
      }),
      uncertainties(rows, record, width, unit),
      table(rows, record, unit),
    );
  },
};

/** The points in the reader's unit. */
function converted(
  { sweep: swept, measurands }: RunRecord,
  name: string,
  wanted: string | null,
): { readonly unit: string; readonly rows: readonly Row[] } {
  const own: MeasurandRecord = measurands[name]!;
  const { factor, offset, unit } = (wanted === null ? null : conversionTo(own, wanted)) ?? {
    factor: 1,
    offset: 0,
    unit: own.unit,
  };
  const f = (value: number): number => value * factor + offset;
  const both = ([low, high]: readonly [number, number]): readonly [number, number] => [f(low), f(high)];
  const rows = swept!.points.map(({ at, measurands: found }): Row => {
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
  return { unit, rows };
}

/** u and the k that is needed, against the swept quantity. */
function uncertainties(rows: readonly Row[], { sweep: swept }: RunRecord, width: number, unit: string): HTMLElement {
  const each = width < 640 ? width : Math.floor((width - 32) / 2);
  const flat = (value: number | null): readonly [number, number | null, number] => [value ?? 0, value, value ?? 0];
  const one = (name: string, title: Child, points: readonly SweptPoint[], from: number): HTMLElement =>
    html(
      "div",
      {},
      sweepPicture({
        name,
        title,
        points,
        width: each,
        height: 130,
        axisLabel: overUnit(swept!.quantity, swept!.unit),
        from,
      }),
    );
  const factors = rows.flatMap(({ at, result: { linear, coverageFactorNeeded: needed } }): SweptPoint[] =>
    needed === null ? [] : [{ at, linear: flat(linear.coverageFactor), monteCarlo: flat(needed) }],
  );
  const least = Math.min(...factors.flatMap(({ linear, monteCarlo }) => [linear[0], monteCarlo[0]]));
  const greatest = Math.max(...factors.flatMap(({ linear, monteCarlo }) => [linear[0], monteCarlo[0]]));
  return html(
    "div",
    { class: "end-pair" },
    one(
      `Standard uncertainty by both methods against ${swept!.quantity}.`,
      ["standard uncertainty ", symbolSpan("u", overUnit("", unit))],
      rows.map(({ at, result: { linear, monteCarlo } }) => ({
        at,
        linear: flat(linear.standardUncertainty),
        monteCarlo: flat(monteCarlo.standardUncertainty ?? linear.standardUncertainty),
      })),
      0,
    ),
    factors.length < 2
      ? null
      : one(
          `Coverage factor of the budget, and the one the Monte Carlo interval would need, against ${swept!.quantity}.`,
          ["coverage factor ", symbolSpan("k", ": the budget’s, and the one needed")],
          factors,
          Math.min(1.5, least - 0.5 * (greatest - least)),
        ),
  );
}

function table(rows: readonly Row[], record: RunRecord, unit: string): HTMLElement {
  const { quantity, unit: along } = record.sweep!;
  const smallest = Math.min(...rows.map(({ result }) => result.linear.expandedUncertainty).filter((u) => u > 0));
  const places = Math.max(0, decimalsFor(smallest, 2));
  const text = (value: number | null): string => (value === null ? "none" : fixed(value, places));
  const range = ([low, high]: readonly [number, number]): string => rangeWithUnit(text(low), text(high), "1");
  const head = (...label: Parameters<typeof html>[2][]): HTMLElement => html("th", { scope: "col" }, ...label);
  return html(
    "div",
    { class: "wide-table", tabindex: 0, role: "region", "aria-label": "The result at every point", id: "sweep-table" },
    html(
      "table",
      { class: "plain" },
      html("caption", {}, `Both methods at every point, at ${probabilityText(record.coverage.probability)}`),
      html(
        "thead",
        {},
        html(
          "tr",
          {},
          head(overUnit(quantity, along)),
          head(overUnit("estimate", unit)),
          head(html("var", {}, "u"), overUnit("", unit)),
          head(html("var", {}, "U"), overUnit("", unit)),
          head(swatch("linear"), "linear"),
          head(swatch("monte-carlo"), "Monte Carlo"),
          head(html("var", {}, "k"), " needed"),
          head("budget"),
        ),
      ),
      html(
        "tbody",
        {},
        rows.map(({ at, result: { linear, monteCarlo, validated, coverageFactorNeeded: needed } }) =>
          html(
            "tr",
            {},
            html("th", { scope: "row" }, plain(at)),
            html("td", {}, text(linear.estimate)),
            html("td", {}, fixed(linear.standardUncertainty, places + 1)),
            html("td", {}, text(linear.expandedUncertainty)),
            html("td", {}, range(linear.interval)),
            html("td", {}, range(monteCarlo.interval)),
            html("td", {}, needed === null ? "–" : fixed(needed, 2)),
            html("td", { class: "words" }, validated ? "= validated" : "≠ not validated"),
          ),
        ),
      ),
    ),
  );
}
