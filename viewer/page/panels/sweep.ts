import type { RunRecord } from "../../../engine/index.ts";
import { html } from "../draw/node.ts";
import { wideTable } from "../draw/table.ts";
import { speech, messages } from "../language.ts";
import { overUnit, withUnit } from "../../present/numbers.ts";
import { plain, probabilityText } from "../numbers.ts";
import { gridTable, sweepSentence, sweepTable, sweptResults, type SweptResult } from "../../present/tables/sweep.ts";
import { swatch } from "../draw/swatch.ts";
import { sceneNode } from "../draw/scene.ts";
import { gridScene } from "../../present/pictures/grid.ts";
import { sweepScene, type SweptPoint } from "../../present/pictures/sweep.ts";
import type { Label } from "../../present/pictures/scene.ts";
import { fillText } from "../../present/fill.ts";
import { labelOf } from "../../present/pictures/label.ts";
import type { Panel } from "./panel.ts";

const said = messages.sweepPanel;

/** The result over a range, if the study sweeps one. */
export const sweep: Panel = {
  id: "sweep",
  title: messages.sections.sweep,
  concludes: true,
  appliesTo: ({ sweep: found }) => found != null,
  render(element, record, name, { reading, width }) {
    const { quantity, unit: along, points } = record.sweep!;
    const swept = sweptResults(record, name, reading.unit ?? null);
    const { unit, results: rows } = swept;
    const { symbol } = record.measurands[name]!;
    if (record.sweep!.second !== undefined) {
      element.replaceChildren(
        html("p", {}, sweepSentence(record, swept, speech)),
        sceneNode(gridScene(record, name, swept, { width, height: Math.round(Math.min(260, 0.28 * width)) }, speech)),
        wideTable(gridTable(record, name, swept, speech), "sweep-table"),
      );
      return;
    }
    element.replaceChildren(
      html("p", {}, sweepSentence(record, swept, speech)),
      html(
        "p",
        { class: "key" },
        html(
          "span",
          {},
          swatch("monte-carlo"),
          fillText(said.band, { p: probabilityText(record.coverage.probability) }),
        ),
        html("span", {}, swatch("linear"), said.linear),
      ),
      sceneNode(
        sweepScene(
          {
            name: fillText(said.pictureName, {
              quantity,
              from: withUnit(plain(points[0]!.at), along),
              to: withUnit(plain(points.at(-1)!.at), along),
            }),
            titles: [overUnit(quantity, along), [{ symbol }, overUnit("", unit)]],
            points: rows.map(({ at, result: { linear, monteCarlo } }): SweptPoint => ({
              at,
              linear: [linear.interval[0], linear.estimate, linear.interval[1]],
              monteCarlo: [monteCarlo.interval[0], monteCarlo.estimate, monteCarlo.interval[1]],
            })),
            width,
            height: Math.round(Math.min(260, Math.max(180, 0.28 * width))),
          },
          speech.numbers,
        ),
      ),
      uncertainties(rows, record, width, unit),
      wideTable(sweepTable(record, name, swept, speech), "sweep-table"),
    );
  },
};

/** u and the k that is needed, against the swept quantity. */
function uncertainties(
  rows: readonly SweptResult[],
  { sweep: swept }: RunRecord,
  width: number,
  unit: string,
): HTMLElement {
  const each = width < 640 ? width : Math.floor((width - 32) / 2);
  const flat = (value: number | null): readonly [number, number | null, number] => [value ?? 0, value, value ?? 0];
  const one = (name: string, title: Label, points: readonly SweptPoint[], from: number): HTMLElement =>
    html(
      "div",
      {},
      sceneNode(
        sweepScene(
          {
            name,
            titles: [overUnit(swept!.quantity, swept!.unit), title],
            points,
            width: each,
            height: 130,
            from,
          },
          speech.numbers,
        ),
      ),
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
      fillText(said.uncertaintyName, { quantity: swept!.quantity }),
      [...labelOf(said.uncertainty, { u: { symbol: "u" } }), overUnit("", unit)],
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
          fillText(said.factorName, { quantity: swept!.quantity }),
          labelOf(said.factor, { k: { symbol: "k" } }),
          factors,
          Math.min(1.5, least - 0.5 * (greatest - least)),
        ),
  );
}
