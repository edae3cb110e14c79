import type { AssessmentRecord, ConformityRecord, MeasurandRecord, RunRecord } from "../../../engine/index.ts";
import { densities, middleOf } from "../../present/pictures/histogram.ts";
import { limitsScene } from "../../present/pictures/limits.ts";
import { sceneNode } from "../draw/scene.ts";
import { html, type Child } from "../draw/node.ts";
import { decimalsFor, fixed, overUnit, percent, significant, withUnit } from "../../present/numbers.ts";
import { readable } from "../../present/readable.ts";
import { en } from "../../present/messages/en/index.ts";
import { swatch } from "../draw/swatch.ts";
import { sentenceNodes } from "../draw/symbol.ts";
import type { Panel } from "./panel.ts";

/** Whether the measurand conforms to its tolerance, by both methods (JCGM 106). */
export const conformity: Panel = {
  id: "conformity",
  title: "Does it conform?",
  appliesTo: ({ measurands }) => Object.values(measurands).some(({ conformity: found }) => found != null),
  render(element, record, name, { reading, width }) {
    const measurand = readable(record.measurands[name]!, reading.unit ?? null);
    const found = measurand.conformity;
    if (found === null) {
      element.replaceChildren(html("p", {}, "The study states no tolerance for this measurand."));
      return;
    }
    const { linear, monteCarlo, agree, sentence, tolerance, rule } = found;
    element.replaceChildren(
      html("p", { class: "sentence", id: "conformity-sentence" }, sentenceNodes(sentence, record)),
      html(
        "p",
        { class: "decision", id: "decision", "data-agree": String(agree) },
        agree
          ? html("strong", {}, `${linear.decision === "accepted" ? "Accepted" : "Rejected"} by both methods`)
          : html(
              "strong",
              {},
              `The methods disagree: ${linear.decision} by the budget, ${monteCarlo.decision} by Monte Carlo`,
            ),
        `, by ${rule.name} (${rule.source})`,
        tolerance.basis === null ? "." : `. Tolerance: ${tolerance.basis}.`,
      ),
      picture(measurand, found, record, width),
      assessments(measurand, found),
    );
  },
};

const placesOf = ({ linear }: ConformityRecord): number => Math.max(0, decimalsFor(linear.expandedUncertainty, 2));

function picture(
  measurand: MeasurandRecord,
  { tolerance, linear, monteCarlo }: ConformityRecord,
  { coverage }: RunRecord,
  width: number,
): HTMLElement {
  const { symbol, unit } = measurand;
  const interval = measurand.monteCarlo.intervals[coverage.interval];
  const histogram = middleOf(measurand.monteCarlo.histogram, interval);
  const heights = densities(histogram, measurand.monteCarlo.trials);
  const most = Math.max(...heights);
  const limitWords = [tolerance.lower, tolerance.upper].map((limit) =>
    limit === null ? "none" : withUnit(significant(limit, 4), unit),
  );
  return html(
    "div",
    { class: "figure-plain" },
    sceneNode(
      limitsScene({
        name: `Distribution of the measurand between its tolerance limits ${limitWords.join(" and ")}, with the acceptance limits of both methods.`,
        tolerance,
        limitLabels: [en.conformity.lowerLimit, en.conformity.upperLimit],
        shape: heights.map((height, i) => [histogram.low + (i + 0.5) * histogram.width, most > 0 ? height / most : 0]),
        lanes: [
          {
            method: "linear",
            label: en.conformity.laneLinear,
            acceptance: linear.acceptance,
            estimate: linear.estimate,
            interval: measurand.linear.interval,
          },
          {
            method: "monte-carlo",
            label: en.conformity.laneMonteCarlo,
            acceptance: monteCarlo.acceptance,
            estimate: monteCarlo.estimate,
            interval,
          },
        ],
        width,
        axisLabel: [{ symbol }, overUnit("", unit)],
      }),
    ),
    html("p", { class: "note" }, en.conformity.key),
  );
}

/** A probability that no trial showed is not known to be 0. */
const orNone = (p: number, { standardError }: AssessmentRecord): string =>
  p === 0 && standardError !== null ? "no trial" : chance(p);

/** No budget knows a tail farther out: a smaller probability would describe the normal distribution alone. */
const SMALLEST = 1e-6;

/** A probability as it can be read: percent, or a power of ten where it is very small. */
function chance(p: number): string {
  if (p > 0 && p < SMALLEST) return `< ${significant(SMALLEST, 1)}`;
  if (p < 1 && p > 1 - SMALLEST) return `> 1 − ${significant(SMALLEST, 1)}`;
  return p > 0 && p < 0.0001 ? significant(p, 2) : p < 1 && p > 0.9999 ? `1 − ${significant(1 - p, 2)}` : percent(p, 2);
}

function assessments({ unit }: MeasurandRecord, found: ConformityRecord): HTMLElement {
  const places = placesOf(found);
  const { linear, monteCarlo, prior } = found;
  const text = (value: number | null): string => (value === null ? "none" : fixed(value, places));
  const limits = ({ acceptance }: AssessmentRecord): string =>
    acceptance === null ? "nothing is accepted" : `${text(acceptance.lower)} to ${text(acceptance.upper)}`;
  const guardBands = ({ guardBand, guardBands: at }: AssessmentRecord): string => {
    if (at === undefined || found.tolerance.lower === null || found.tolerance.upper === null) return text(guardBand);
    return text(at.lower) === text(at.upper)
      ? text(at.lower)
      : `${text(at.lower)} (lower), ${text(at.upper)} (upper limit)`;
  };
  const error = ({ standardError }: AssessmentRecord): string =>
    standardError === null ? "" : ` (standard error ${significant(standardError, 1)})`;
  const rows: [Child, (of: AssessmentRecord) => string][] = [
    ["decision", ({ decision, firm }) => `${decision}${firm === false ? " (within the scatter of the trials)" : ""}`],
    [overUnit("measured value", unit), ({ estimate }) => text(estimate)],
    [
      ["expanded uncertainty ", html("var", {}, "U"), overUnit("", unit)],
      ({ expandedUncertainty }) => text(expandedUncertainty),
    ],
    [["guard band ", html("var", {}, "w"), overUnit("", unit)], guardBands],
    [overUnit("acceptance limits", unit), limits],
    ["probability of conformity", (of) => chance(of.probabilityOfConformity) + error(of)],
    ["probability below the lower limit", (of) => orNone(of.below, of)],
    ["probability above the upper limit", (of) => orNone(of.above, of)],
    ["risk of this decision", (of) => `${orNone(of.specificRisk.value, of)}, the ${of.specificRisk.bearer}’s`],
    ["measurement capability index", ({ measurementCapability: c }) => (c === null ? "none" : fixed(c, 1))],
  ];
  if (prior !== null) {
    rows.push(
      [
        "probability of conformity, with what was known before",
        ({ posterior }) => (posterior === null ? "none" : chance(posterior.probabilityOfConformity)),
      ],
      [
        "risk of the next item, the consumer’s",
        ({ globalRisk }) => (globalRisk === null ? "none" : chance(globalRisk.consumer)),
      ],
      [
        "risk of the next item, the producer’s",
        ({ globalRisk }) => (globalRisk === null ? "none" : chance(globalRisk.producer)),
      ],
    );
  }
  return html(
    "table",
    { class: "plain", id: "assessments" },
    html(
      "caption",
      {},
      `Decision and risks by both methods; guard band ${fixed(found.rule.guardBandMultiplier, 2)} times `,
      html("var", {}, "U"),
      " inside each limit",
    ),
    html(
      "thead",
      {},
      html(
        "tr",
        {},
        html("th", { scope: "col" }, "figure"),
        html("th", { scope: "col" }, swatch("linear"), "linear"),
        html("th", { scope: "col" }, swatch("monte-carlo"), "Monte Carlo"),
      ),
    ),
    html(
      "tbody",
      {},
      rows.map(([label, cell]) =>
        html(
          "tr",
          {},
          html("th", { scope: "row" }, label),
          html("td", {}, cell(linear)),
          html("td", {}, cell(monteCarlo)),
        ),
      ),
    ),
  );
}
