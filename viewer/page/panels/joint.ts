import type { JointRecord, PairRecord, RunRecord } from "../../../engine/index.ts";
import { html, type Child } from "../draw/node.ts";
import { overUnit } from "../../present/numbers.ts";
import { fixed, probabilityText, whole } from "../numbers.ts";
import { sceneNode } from "../draw/scene.ts";
import { covarianceOf, normalPairFactor, pairScene, type Ellipse } from "../../present/pictures/pair.ts";
import { swatch } from "../draw/swatch.ts";
import { choiceSwitch } from "../draw/switch.ts";
import { speech, messages } from "../language.ts";
import { correlationText, factorTable, regionFigures } from "../../present/tables/joint.ts";
import { tableNode } from "../draw/table.ts";
import { labelNodes, symbolNode } from "../draw/symbol.ts";
import { fillText } from "../../present/fill.ts";
import { labelOf } from "../../present/pictures/label.ts";
import { symbolText } from "../../present/symbol.ts";
import type { Panel, View } from "./panel.ts";

const said = messages.jointPanel;

/** What several measurands have in common (JCGM 102). */
export const joint: Panel = {
  id: "joint",
  title: messages.sections.joint,
  appliesTo: ({ joint: found }) => found != null,
  render(element, record, _name, view) {
    const found = record.joint!;
    element.replaceChildren(
      html(
        "div",
        { class: "joint-tables" },
        correlations(found.linear.correlation, "linear", found, record),
        found.monteCarlo === null
          ? noCovariance()
          : correlations(found.monteCarlo.correlation, "monte-carlo", found, record),
        tableNode(factorTable(found, record.measurands, speech), "joint-factors"),
      ),
      ...(found.pairs.length === 0 ? [] : [pairs(found, record, view)]),
    );
  },
};

const noCovariance = (): HTMLElement => html("p", { class: "note" }, messages.joint.noCovariance);

/** A correlation as shade: the darker, the closer to ±1; the number says which. */
const shade = (r: number): string =>
  `background: color-mix(in srgb, var(--hatch) ${(38 * Math.min(1, Math.abs(r))).toFixed(0)}%, transparent)`;

function correlations(
  matrix: readonly (readonly number[])[],
  method: "linear" | "monte-carlo",
  { measurands }: JointRecord,
  record: RunRecord,
): HTMLElement {
  const name = (i: number): HTMLElement => symbolNode(record.measurands[measurands[i]!]!.symbol);
  return html(
    "table",
    { class: "plain matrix", id: `correlation-${method}` },
    html(
      "caption",
      {},
      swatch(method),
      `${messages.joint.correlationBy}: ${method === "linear" ? messages.monteCarlo.linear : messages.monteCarlo.monteCarlo}`,
    ),
    html(
      "thead",
      {},
      html(
        "tr",
        {},
        html("td", {}),
        measurands.map((_, i) => html("th", { scope: "col" }, name(i))),
      ),
    ),
    html(
      "tbody",
      {},
      matrix.map((row, i) =>
        html(
          "tr",
          {},
          html("th", { scope: "row" }, name(i)),
          row.map((r, j) =>
            html(
              "td",
              { style: i === j ? null : shade(r), "data-value": String(r) },
              i === j ? "1" : correlationText(r, speech),
            ),
          ),
        ),
      ),
    ),
  );
}

/** The choice of a pair, if there are several, and its picture. */
function pairs(found: JointRecord, record: RunRecord, view: View): HTMLElement {
  const chosen = found.pairs[Number(view.reading.pair ?? 0)] ?? found.pairs[0]!;
  const index = found.pairs.indexOf(chosen);
  const label = ({ between: [a, b] }: PairRecord): Child =>
    labelNodes(
      labelOf(said.between, {
        a: { symbol: record.measurands[a]!.symbol },
        b: { symbol: record.measurands[b]!.symbol },
      }),
    );
  return html(
    "div",
    { class: "pairs" },
    found.pairs.length === 1
      ? null
      : html(
          "div",
          { class: "controls" },
          choiceSwitch(
            "pair",
            said.pair,
            found.pairs.map((pair, i) => ({ value: String(i), label: label(pair) })),
            String(index),
            (value) => view.choose({ pair: value === "0" ? null : value }, true),
          ),
        ),
    onePair(chosen, found, record, view.width),
  );
}

function onePair(pair: PairRecord, found: JointRecord, record: RunRecord, width: number): HTMLElement {
  const [a, b] = pair.between.map((name) => record.measurands[name]!) as [
    RunRecord["measurands"][string],
    RunRecord["measurands"][string],
  ];
  const [i, j] = pair.between.map((name) => found.measurands.indexOf(name)) as [number, number];
  const normalFactor = normalPairFactor(found.probability);
  const linear: Ellipse = {
    centre: [a.linear.estimate, b.linear.estimate],
    covariance: covarianceOf(found.linear.covariance, i, j),
    factor: normalFactor,
  };
  const monteCarlo: Ellipse | null =
    found.monteCarlo === null ||
    pair.ellipseFactor === null ||
    a.monteCarlo.estimate === null ||
    b.monteCarlo.estimate === null
      ? null
      : {
          centre: [a.monteCarlo.estimate, b.monteCarlo.estimate],
          covariance: covarianceOf(found.monteCarlo.covariance, i, j),
          factor: pair.ellipseFactor,
        };
  const { least, counts } = pair.grid;
  const { area, held } = regionFigures(pair, record.measurands, speech);
  const p = probabilityText(found.probability);
  const k = { symbol: "k_p" };
  return html(
    "div",
    { class: "figure-plain" },
    html(
      "p",
      { class: "key" },
      html(
        "span",
        {},
        swatch("monte-carlo"),
        html(
          "span",
          { class: "words" },
          pair.ellipseFactor === null
            ? said.trials
            : labelNodes(labelOf(said.trialsFactor, { k, factor: fixed(pair.ellipseFactor, 2) })),
        ),
      ),
      html(
        "span",
        {},
        swatch("linear"),
        html("span", { class: "words" }, labelNodes(labelOf(said.linear, { k, factor: fixed(normalFactor, 2) }))),
      ),
    ),
    sceneNode(
      pairScene(
        {
          name: fillText(said.pictureName, { a: symbolText(a.symbol), b: symbolText(b.symbol), p }),
          pair,
          linear,
          monteCarlo,
          width: Math.min(width, 640),
          titles: [
            [{ symbol: a.symbol }, overUnit("", a.unit)],
            [{ symbol: b.symbol }, overUnit("", b.unit)],
          ],
        },
        speech.numbers,
      ),
    ),
    html(
      "p",
      { class: "note", id: "pair-region" },
      fillText(said.region, {
        p,
        cells: whole(counts.filter((count) => count >= least && count > 0).length),
        least: whole(least),
        held,
        area,
        points: whole(pair.scatter.length),
      }),
    ),
  );
}
