import type { RunRecord } from "../../../engine/index.ts";
import type { LinearisedFigures } from "../../../engine/internal.ts";
import { byMethod } from "../../present/differences.ts";
import { labelOf } from "../../present/pictures/label.ts";
import { messages } from "../language.ts";
import { decimalsFor, overUnit } from "../../present/numbers.ts";
import { fixed } from "../numbers.ts";
import { standingOf, standingText } from "../../present/verdict.ts";
import { conversionTo } from "../../present/units.ts";
import { html } from "../draw/node.ts";
import { wideTable } from "../draw/table.ts";
import { threeDensitiesPicture } from "../draw/three-densities-picture.ts";
import type { Column, Row } from "../../present/tables/table.ts";
import type { Computed, ComputedMeasurand, JudgedOthers, Previews } from "../what-if/protocol.ts";
import type { View } from "./panel.ts";

/**
 * What a change does, beside the changes that were kept: a table of what is known without a trial, to which the verdict of the
 * preview comes, and the picture of the three distributions, in which the trials follow.
 *
 * @param names those of the kept changes, which stand beside it in the table
 * @param previews the last that came; they are drawn where they are of this very change
 * @param judged what trials say of the kept changes
 */
export function computedPart(
  record: RunRecord,
  name: string,
  { reading, width }: View,
  { id, computed }: Computed,
  names: readonly string[],
  previews: Previews | null,
  judged: JudgedOthers | null,
): HTMLElement {
  const full = record.measurands[name]!;
  const stated = computed.stated[name]!;
  const changed = computed.changed?.[name] ?? null;
  const { factor, offset, unit } = (reading.unit === undefined ? null : conversionTo(full, reading.unit)) ?? {
    factor: 1,
    offset: 0,
    unit: full.unit,
  };
  const shown = changed ?? stated;
  const places = Math.max(0, decimalsFor((shown.linear.standardUncertainty || 1) * factor, 2) + 1);
  const kind = record.coverage.interval;
  const of = previews?.id === id ? previews : null;
  const trials = of === null ? null : (of.changed ?? of.stated)[name]!;
  const { linearised } = shown;
  const { rows, pure } = rowsOf(
    [stated, changed, ...computed.others.map((other) => other?.[name] ?? null)],
    kind,
    full.symbol,
    (value, absolute) => fixed(value * factor + (absolute ? offset : 0), places),
  );
  return html(
    "div",
    { class: "computed", id: "what-if-computed" },
    wideTable(
      {
        caption: messages.whatIfPanel.computed,
        columns: [
          { head: overUnit(messages.monteCarlo.figure, unit), kind: "head" },
          { head: messages.whatIfPanel.computedStated, kind: "number" },
          { head: messages.whatIfPanel.computedChanged, kind: "number" },
          // An answer of before one was kept or removed has another number of them.
          ...computed.others.map((_, i): Column => ({ head: names[i] ?? "", kind: "number" })),
        ],
        rows,
        below: {
          head: messages.monteCarlo.withoutUnit,
          rows: [
            ...pure,
            {
              head: messages.validation.verdict,
              cells: [
                of?.stated[name] ?? null,
                changed === null ? messages.notApplicable : (of?.changed?.[name] ?? null),
                ...computed.others.map((other, i) =>
                  other === null
                    ? messages.notApplicable
                    : ((judged?.id === id ? judged.judged[i]?.[name] : null) ?? null),
                ),
              ].map((from) =>
                typeof from === "string"
                  ? from
                  : from === null
                    ? messages.whatIfPanel.drawingYet
                    : standingText(standingOf(from.validation), messages),
              ),
            },
          ],
        },
      },
      "what-if-computed-table",
    ),
    linearised.kind === "unavailable" || linearised.curve.length === 0
      ? ""
      : threeDensitiesPicture(
          {
            symbol: full.symbol,
            unit: full.unit,
            places: Math.max(0, decimalsFor(shown.linear.standardUncertainty || 1, 2) + 1),
            linear: shown.linear,
            monteCarlo: trials === null ? null : trials.monteCarlo,
          },
          linearised,
          record,
          width,
        ),
  );
}

type Kind = RunRecord["coverage"]["interval"];

/** The figures in the unit of the measurand, and those without one. */
function rowsOf(
  all: readonly (ComputedMeasurand | null)[],
  kind: Kind,
  symbol: string,
  text: (value: number, absolute: boolean) => string,
): { readonly rows: readonly Row[]; readonly pure: readonly Row[] } {
  const row = (head: Row["head"], of: (from: ComputedMeasurand) => string): Row => ({
    head,
    cells: all.map((from) => (from === null ? messages.notApplicable : of(from))),
  });
  const exact =
    (of: (found: LinearisedFigures & { readonly kind: "distribution" }) => string) =>
    (from: ComputedMeasurand): string =>
      from.linearised.kind === "distribution" ? of(from.linearised) : messages.none;
  const factorText = (k: number | null): string => (k === null ? messages.none : fixed(k, 3));
  const { low, high } = messages.monteCarlo;
  const { lane, laneLinear, factor } = messages.linearised;
  const k = labelOf(factor, { k: { symbol: "k" } });
  const { estimate, uncertainty, expanded } = messages.compared;
  const [y, u, U] = [{ symbol }, { symbol: "u" }, { symbol: "U" }];
  const rows = [
    row(byMethod(labelOf(estimate, { y }), laneLinear, messages), ({ linear }) => text(linear.estimate, true)),
    row(byMethod(labelOf(uncertainty, { u, y }), laneLinear, messages), ({ linear }) =>
      text(linear.standardUncertainty, false),
    ),
    row(byMethod(labelOf(expanded, { U }), laneLinear, messages), ({ linear }) =>
      linear.expandedUncertainty === null ? messages.none : text(linear.expandedUncertainty, false),
    ),
    row(byMethod(low, laneLinear, messages), ({ linear }) => text(linear.interval[0], true)),
    row(byMethod(high, laneLinear, messages), ({ linear }) => text(linear.interval[1], true)),
    row(
      byMethod(low, lane, messages),
      exact(({ intervals }) => text(intervals[kind][0], true)),
    ),
    row(
      byMethod(high, lane, messages),
      exact(({ intervals }) => text(intervals[kind][1], true)),
    ),
  ];
  const pure = [
    row(byMethod(k, laneLinear, messages), ({ linear }) => factorText(linear.coverageFactor)),
    row(
      byMethod(k, lane, messages),
      exact(({ coverageFactor }) => factorText(coverageFactor)),
    ),
  ];
  return { rows, pure };
}
