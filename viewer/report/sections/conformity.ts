import type { ConformityRecord } from "../../../engine/index.ts";
import { sceneMarkup, WIDE } from "../draw/scene.ts";
import { densities, middleOf } from "../../present/pictures/histogram.ts";
import { limitsScene } from "../../present/pictures/limits.ts";
import { figureMarkup } from "../figure.ts";
import { fillText } from "../../present/fill.ts";
import { fill, html, type Markup } from "../markup.ts";
import { dividedBy, withUnit } from "../../present/numbers.ts";
import type { Readable } from "../../present/readable.ts";
import { comparedInterval, eachMeasurand, letter, spoken, type Report, type Section } from "../report.ts";
import { symbolMarkup } from "../symbol.ts";
import { symbolText } from "../../present/symbol.ts";
import { conformityTable, requirementText, statedLimit } from "../../present/tables/conformity.ts";
import { presentedTable } from "../table.ts";

/** Whether the measurand conforms (JCGM 106), if the study states a requirement. */
export const conformity: Section = {
  id: "conformity",
  render: (report) =>
    eachMeasurand(report, (measurand, name) =>
      measurand.conformity === null ? null : written(report, measurand, measurand.conformity, name),
    ),
};

function written(report: Report, measurand: Readable, found: ConformityRecord, name: string): Markup {
  const { messages, numbers } = report;
  const words = messages.conformity;
  const { symbol, unit } = measurand;
  const y = symbolMarkup(symbol);
  const { basis } = found.tolerance;
  const stated = (value: number): string => withUnit(statedLimit(value, numbers), unit);
  const limits = requirementText(found.tolerance, unit, report);
  const rule = fill(words.rule, {
    rule: words[found.rule.name],
    source: found.rule.source,
    w: letter("w"),
    r: numbers.plain(found.rule.guardBandMultiplier),
    U: letter("U"),
  });
  const { prior } = found;
  const before =
    prior === null
      ? null
      : html`<p>
          ${fill(words.prior, {
            mean: stated(prior.mean),
            deviation: stated(prior.standardDeviation),
            source: prior.source === null ? "" : html` (${prior.source})`,
            share: numbers.percent(prior.probabilityOfConformity),
          })}
        </p>`;
  return html`<p>
      ${fill(words.requirement, { y, limits, basis: basis === null ? "" : html` (${report.translate(basis)})` })}
      ${rule}
    </p>
    ${before}
    <p>${spoken(report, report.sentences.measurands[name]!.conformity)}</p>
    ${presentedTable(report, conformityTable(measurand, found, report))}${figureMarkup(
      report,
      picture(report, measurand, found),
      fill(words.pictureCaption, { y }),
    )}`;
}

function picture(report: Report, measurand: Readable, { tolerance, linear, monteCarlo }: ConformityRecord): Markup {
  const { messages, numbers } = report;
  const words = messages.conformity;
  const { symbol, unit } = measurand;
  const interval = comparedInterval(report, measurand);
  const histogram = middleOf(measurand.monteCarlo.histogram, interval);
  const heights = densities(histogram, measurand.monteCarlo.trials);
  const most = Math.max(...heights);
  return sceneMarkup(
    limitsScene(
      {
        name: fillText(words.pictureName, { y: symbolText(symbol) }),
        tolerance,
        limitLabels: [
          [{ symbol: "T_L" }, `, ${words.lowerLimit}`],
          [{ symbol: "T_U" }, `, ${words.upperLimit}`],
        ],
        shape: heights.map((height, i) => [histogram.low + (i + 0.5) * histogram.width, most > 0 ? height / most : 0]),
        lanes: [
          {
            method: "linear",
            label: words.laneLinear,
            acceptance: linear.acceptance,
            estimate: linear.estimate,
            interval: measurand.linear.interval,
          },
          {
            method: "monte-carlo",
            label: words.laneMonteCarlo,
            acceptance: monteCarlo.acceptance,
            estimate: monteCarlo.estimate,
            interval,
          },
        ],
        width: WIDE,
        axisLabel: [{ symbol }, dividedBy(unit)],
      },
      numbers,
    ),
  );
}
