import type { AssessmentRecord, ConformityRecord } from "../../../engine/index.ts";
import { sceneMarkup, WIDE } from "../draw/scene.ts";
import { densities, middleOf } from "../../present/pictures/histogram.ts";
import { limitsScene } from "../../present/pictures/limits.ts";
import { figureMarkup } from "../figure.ts";
import { fill, fillText, html, type Child, type Markup } from "../markup.ts";
import { dividedBy, withUnit } from "../../present/numbers.ts";
import type { Readable } from "../../present/readable.ts";
import { comparedInterval, eachMeasurand, letter, spoken, type Report, type Section } from "../report.ts";
import { symbolMarkup } from "../symbol.ts";
import { symbolText } from "../../present/symbol.ts";
import { tableMarkup } from "../table.ts";

/** Whether the measurand conforms (JCGM 106), where the study states a requirement. */
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
  const { lower, upper, basis } = found.tolerance;
  const stated = (value: number): string => withUnit(plainLimit(report, value), unit);
  const limits =
    lower === null
      ? fill(words.atMost, { upper: stated(upper!) })
      : upper === null
        ? fill(words.atLeast, { lower: stated(lower) })
        : fill(words.between, { lower: plainLimit(report, lower), upper: stated(upper) });
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
  return html`<p>${fill(words.requirement, { y, limits, basis: basis === null ? "" : html` (${basis})` })} ${rule}</p>
    ${before}
    <p>${spoken(report, report.sentences.measurands[name]!.conformity)}</p>
    ${table(report, measurand, found)}${figureMarkup(
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

/** A limit as it was stated: rounding to the uncertainty would move it; 12 digits leave out what binary sums add. */
const plainLimit = ({ numbers }: Report, value: number): string => numbers.plain(Number(value.toPrecision(12)));

/** A probability as percent, with more places near 0 and 1; rounding never makes it certain. */
function chanceText({ numbers }: Report, value: number): string {
  if (value > 0.001 && value < 0.999) return numbers.percent(value, 2);
  if (value !== 1 && numbers.fixed(100 * value, 4) === numbers.fixed(100, 4))
    return `>\u00a0${withUnit(numbers.fixed(99.9999, 4), "%")}`;
  return value === 0 || value === 1 ? withUnit(numbers.whole(100 * value), "%") : numbers.percent(value, 4);
}

function table(report: Report, measurand: Readable, found: ConformityRecord): Markup {
  const { messages, numbers } = report;
  const words = messages.conformity;
  const { unit, symbol, places } = measurand;
  const y = symbolMarkup(symbol);
  const at = (value: number): string => withUnit(numbers.fixed(value, places), unit);
  const chance = (value: number): string => chanceText(report, value);
  const orNone = (value: number | null, text: (value: number) => string): string =>
    value === null ? messages.notApplicable : text(value);
  const acceptance = ({ acceptance: limits }: AssessmentRecord): string => {
    if (limits === null) return words.nothing;
    const { lower, upper } = limits;
    if (lower === null)
      return upper === null ? messages.notApplicable : fillText(words.atMostSide, { upper: at(upper) });
    return upper === null
      ? fillText(words.atLeastSide, { lower: at(lower) })
      : withUnit(numbers.interval([numbers.fixed(lower, places), numbers.fixed(upper, places)]), unit);
  };
  const guardBands = ({ guardBand, guardBands: apart }: AssessmentRecord): Child => {
    if (apart === undefined || found.tolerance.lower === null || found.tolerance.upper === null) return at(guardBand);
    return at(apart.lower) === at(apart.upper)
      ? at(apart.lower)
      : fillText(words.guardBands, { lower: at(apart.lower), upper: at(apart.upper) });
  };
  const both = (head: Child, text: (of: AssessmentRecord) => Child): Child[] => [
    head,
    text(found.linear),
    text(found.monteCarlo),
  ];
  const withError = ({ probabilityOfConformity: p, standardError }: AssessmentRecord): Child =>
    html`${chance(p)}${standardError === null || standardError === 0 ? null : html` <span class="fine">± ${withUnit(numbers.significant(100 * standardError, 2), "%")}</span>`}`;
  const some = (value: (of: AssessmentRecord) => number | null): boolean =>
    value(found.linear) !== null || value(found.monteCarlo) !== null;
  const risks = (["consumer", "producer"] as const).filter(
    (bearer) => found.linear.specificRisk.bearer === bearer || found.monteCarlo.specificRisk.bearer === bearer,
  );
  const rows: Child[][] = [
    both(fill(words.estimate, { y }), ({ estimate }) => at(estimate)),
    both(fill(words.uncertainty, { u: letter("u"), y }), ({ standardUncertainty: u }) => orNone(u, at)),
    both(fill(words.expanded, { U: letter("U") }), ({ expandedUncertainty: U }) => at(U)),
    both(fill(words.guardBand, { w: letter("w") }), guardBands),
    both(words.acceptance, acceptance),
    both(words.decision, ({ decision, firm }) =>
      firm === false ? html`<b>${words[decision]}</b> (${words.withinScatter})` : html`<b>${words[decision]}</b>`,
    ),
    both(fill(words.probability, { p: letter("p_c") }), withError),
    ...(found.tolerance.lower === null ? [] : [both(words.below, ({ below }) => chance(below))]),
    ...(found.tolerance.upper === null ? [] : [both(words.above, ({ above }) => chance(above))]),
    ...risks.map((bearer) =>
      both(words[bearer], ({ specificRisk }) =>
        specificRisk.bearer === bearer ? chance(specificRisk.value) : messages.notApplicable,
      ),
    ),
    ...(some(({ measurementCapability }) => measurementCapability)
      ? [
          both(fill(words.capability, { C: letter("C_m") }), ({ measurementCapability }) =>
            orNone(measurementCapability, (value) => numbers.fixed(value, 2)),
          ),
        ]
      : []),
    ...(some(({ posterior }) => posterior?.estimate ?? null)
      ? [both(words.posterior, ({ posterior }) => orNone(posterior?.probabilityOfConformity ?? null, chance))]
      : []),
    ...(some(({ globalRisk }) => globalRisk?.consumer ?? null)
      ? [
          both(words.globalConsumer, ({ globalRisk }) => orNone(globalRisk?.consumer ?? null, chance)),
          both(words.globalProducer, ({ globalRisk }) => orNone(globalRisk?.producer ?? null, chance)),
        ]
      : []),
  ];
  return tableMarkup(
    { messages, decimalSign: numbers.decimalSign },
    {
      caption: fill(words.caption, { y }),
      columns: [
        { head: words.figure, kind: "head" },
        { head: messages.monteCarlo.linear, kind: "text" },
        { head: messages.monteCarlo.monteCarlo, kind: "text" },
      ],
      rows,
    },
  );
}
