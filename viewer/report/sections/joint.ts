import type { JointRecord, PairRecord } from "../../../engine/index.ts";
import { HALF, sceneMarkup } from "../draw/scene.ts";
import { covarianceOf, normalPairFactor, pairScene } from "../../present/pictures/pair.ts";
import { figureMarkup } from "../figure.ts";
import { fillText, html, type Child, type Markup } from "../markup.ts";
import { dividedBy, withUnit } from "../../present/numbers.ts";
import type { Report, Section } from "../report.ts";
import { correlationRows, regionRows, type Row } from "../../present/tables.ts";
import { labelMarkup, symbolMarkup } from "../symbol.ts";
import { symbolText } from "../../present/symbol.ts";
import { tableMarkup } from "../table.ts";

/** Pairs that are drawn. */
const PICTURED = 4;

/** What several measurands have in common (JCGM 102). */
export const joint: Section = {
  id: "joint",
  render(report) {
    const { joint: found } = report.record;
    if (found === null) return null;
    return html`<p>${report.messages.joint.intro}</p>
      ${correlations(report, found)}${factors(report, found)}${regions(report, found)}${pairs(report, found)}`;
  },
};

const symbolOf = ({ record }: Report, name: string): string => record.measurands[name]!.symbol;

const cellsOf = (rows: readonly Row[]): Child[][] => rows.map(({ head, cells }) => [labelMarkup(head), ...cells]);

function correlations({ messages, numbers, record }: Report, found: JointRecord): Markup {
  const words = messages.joint;
  return tableMarkup(
    { messages, decimalSign: numbers.decimalSign },
    {
      caption: words.correlation,
      columns: [
        { head: words.pair, kind: "head" },
        { head: words.linear, kind: "number" },
        { head: words.monteCarlo, kind: "number" },
      ],
      rows: cellsOf(correlationRows(found, record.measurands, messages, numbers)),
    },
  );
}

function factors({ messages, numbers, record }: Report, found: JointRecord): Markup {
  const words = messages.joint;
  const rows = cellsOf(regionRows(found, record.measurands, messages, numbers));
  const table =
    rows.length === 0
      ? null
      : tableMarkup(
          { messages, decimalSign: numbers.decimalSign },
          {
            caption: fillText(words.factors, { p: numbers.probability(found.probability) }),
            columns: [
              { head: words.region, kind: "head" },
              { head: words.normal, kind: "number" },
              { head: words.monteCarlo, kind: "number" },
            ],
            rows,
          },
        );
  return html`${table}${found.ellipsoid === null ? html`<p>${words.singular}</p>` : null}`;
}

function regions(report: Report, { pairs: each, probability }: JointRecord): Markup | null {
  const { record, messages, numbers } = report;
  const words = messages.joint;
  if (each.length === 0) return null;
  return tableMarkup(
    { messages, decimalSign: numbers.decimalSign },
    {
      caption: fillText(words.regions, { p: numbers.probability(probability) }),
      columns: [
        { head: words.pair, kind: "head" },
        { head: words.area, kind: "text" },
        { head: words.held, kind: "number" },
      ],
      rows: each.map(({ between: [a, b], grid }) => {
        const unit = [a, b]
          .map((name) => record.measurands[name]!.unit)
          .filter((of) => of !== "1")
          .join("·");
        return [
          html`${symbolMarkup(symbolOf(report, a))}, ${symbolMarkup(symbolOf(report, b))}`,
          withUnit(numbers.significant(grid.area, 3), unit),
          numbers.percent(grid.held, 2),
        ];
      }),
    },
  );
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
