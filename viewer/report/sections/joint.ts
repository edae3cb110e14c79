import type { JointRecord, PairRecord } from "../../../engine/index.ts";
import { HALF, sceneMarkup } from "../draw/scene.ts";
import { covarianceOf, normalPairFactor, pairScene } from "../../present/pictures/pair.ts";
import { figureMarkup } from "../figure.ts";
import { fillText } from "../../present/fill.ts";
import { html, type Markup } from "../markup.ts";
import { dividedBy } from "../../present/numbers.ts";
import type { Report, Section } from "../report.ts";
import { correlationTable, factorTable, regionTable } from "../../present/tables/joint.ts";
import { symbolText } from "../../present/symbol.ts";
import { presentedTable } from "../table.ts";

/** Pairs that are drawn. */
const PICTURED = 4;

/** What several measurands have in common (JCGM 102). */
export const joint: Section = {
  id: "joint",
  render(report) {
    const { joint: found } = report.record;
    if (found === null) return null;
    return html`<p>${report.messages.joint.intro}</p>
      ${presentedTable(report, correlationTable(found, report.record.measurands, report))}${factors(report, found)}${found.pairs.length === 0 ? null : presentedTable(report, regionTable(found, report.record.measurands, report))}${pairs(report, found)}`;
  },
};

function factors(report: Report, found: JointRecord): Markup {
  const table = factorTable(found, report.record.measurands, report);
  return html`${table.rows.length === 0 ? null : presentedTable(report, table)}${found.ellipsoid === null ? html`<p>${report.messages.joint.singular}</p>` : null}`;
}

function pairs(report: Report, found: JointRecord): Markup | null {
  const { messages, numbers } = report;
  const words = messages.joint;
  if (found.pairs.length === 0) return null;
  return figureMarkup(
    report,
    found.pairs.slice(0, PICTURED).map((pair) => drawn(report, found, pair)),
    fillText(words.pictureCaption, { p: numbers.probability(found.probability) }),
  );
}

function drawn(report: Report, { measurands, linear, probability }: JointRecord, pair: PairRecord): Markup {
  const { record, messages, numbers } = report;
  const [a, b] = pair.between.map((name) => record.measurands[name]!) as [
    (typeof record.measurands)[string],
    (typeof record.measurands)[string],
  ];
  const [i, j] = pair.between.map((name) => measurands.indexOf(name)) as [number, number];
  return sceneMarkup(
    pairScene(
      {
        name: fillText(messages.joint.pictureName, { a: symbolText(a.symbol), b: symbolText(b.symbol) }),
        pair,
        linear: {
          centre: [a.linear.estimate, b.linear.estimate],
          covariance: covarianceOf(linear.covariance, i, j),
          factor: normalPairFactor(probability),
        },
        monteCarlo: null,
        width: HALF,
        titles: [
          [{ symbol: a.symbol }, dividedBy(a.unit)],
          [{ symbol: b.symbol }, dividedBy(b.unit)],
        ],
      },
      numbers,
    ),
    "half",
  );
}
