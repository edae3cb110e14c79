import { standingOf, standingTitle } from "../../present/verdict.ts";
import { speech, messages, words as pageWords } from "../language.ts";
import type { MeasurandRecord, RunRecord } from "../../../engine/index.ts";
import { html, type Child } from "../draw/node.ts";
import { decimalsFor, plusMinus, withUnit } from "../../present/numbers.ts";
import { fixed, freedom, probabilityText, rangeWithUnit, whole } from "../numbers.ts";
import { certificateStatement } from "../../present/certificate-statement.ts";
import { placesOfResult, readable, type Readable } from "../../present/readable.ts";
import { toReport } from "../../present/to-report.ts";
import { swatch, verdictMark } from "../draw/swatch.ts";
import { labelNodes, sentenceNodes, symbolNode } from "../draw/symbol.ts";
import { fillText } from "../../present/fill.ts";
import { labelOf } from "../../present/pictures/label.ts";
import { choiceSwitch } from "../draw/switch.ts";
import { unitsFor } from "../../present/units.ts";
import type { Panel, View } from "./panel.ts";

const words = messages.verdictPanel;

/** The answer in words, and the two results it compares. */
export const verdict: Panel = {
  id: "verdict",
  title: messages.panels.verdict,
  appliesTo: () => true,
  render(element, record, name, view) {
    const { provisional, abandoned, file, reading } = view;
    const altered = file.altered;
    const measurand = readable(record.measurands[name]!, reading.unit ?? null);
    const digits: Digits = reading.digits === "1" ? 1 : 2;
    element.replaceChildren(
      abandoned === null ? stated(measurand, record, provisional, altered) : notStated(abandoned, record),
      html(
        "div",
        { class: "results" },
        linearResult(measurand, record, provisional || altered, digits),
        monteCarloResult(measurand, record, provisional || altered, digits),
      ),
      ...(provisional || altered ? [] : [onCertificate(measurand, record, digits)]),
      switches(record.measurands[name]!, digits, view),
    );
  },
};

/** The verdict with its sentence, struck through if the record was altered; while the run goes on, as a word in quiet ink. */
function stated(
  { validation, paired }: Readable,
  record: RunRecord,
  provisional: boolean,
  altered: boolean,
): HTMLElement {
  const standing = standingOf(validation);
  return html(
    "div",
    { class: "verdict", "data-standing": standing, "data-provisional": provisional || altered ? "true" : null },
    html(
      "p",
      { class: "stamp" },
      verdictMark(standing),
      html(
        "strong",
        {},
        struck(`${standingTitle(standing, messages)}${provisional ? messages.panels.soFar : ""}`, altered),
      ),
    ),
    html(
      "p",
      { class: "sentence", id: "verdict-sentence" },
      struck(sentenceNodes(validation.sentence, record), altered),
    ),
    provisional
      ? html("p", { class: "paired", id: "verdict-provisional" }, pageWords.assessor.provisional)
      : paired === undefined || paired.sentence === ""
        ? null
        : html("p", { class: "paired", id: "paired-sentence" }, sentenceNodes(paired.sentence, record)),
  );
}

/** What stands for nothing any more, for the eye and for reading aloud. */
const struck = (content: Child, altered: boolean): Child =>
  altered ? [html("span", { class: "unseen" }, pageWords.assessor.struck), html("s", {}, content)] : content;

/** In the verdict's place where there is none. */
const notStated = (abandoned: "cancelled" | "failed", { trials }: RunRecord): HTMLElement =>
  html(
    "div",
    { class: "verdict", "data-provisional": "true" },
    html("p", { class: "stamp" }, html("strong", {}, pageWords.assessor.noVerdict)),
    html(
      "p",
      { class: "sentence", id: "verdict-sentence" },
      fillText(pageWords.assessor[abandoned], { trials: whole(trials.count) }),
    ),
  );

/** Significant digits that the expanded uncertainty keeps. */
type Digits = 1 | 2;

/** How the result is written: its digits, and its unit if there is a choice. */
function switches(own: MeasurandRecord, digits: Digits, { reading, choose }: View): HTMLElement {
  const units = unitsFor(own);
  const unit = units.find((offer) => offer.unit === reading.unit)?.unit ?? own.unit;
  return html(
    "div",
    { class: "controls", role: "group", "aria-label": words.controls },
    choiceSwitch(
      "digits",
      labelNodes(labelOf(words.digits, { U: { symbol: "U" } })),
      [
        { value: "1", label: words.one },
        { value: "2", label: words.two },
      ],
      String(digits),
      (value) => choose({ digits: value === "2" ? null : value }, true),
    ),
    units.length < 2
      ? null
      : choiceSwitch(
          "unit",
          words.unit,
          units.map((offer) => ({ value: offer.unit, label: offer.unit })),
          unit,
          (value) => choose({ unit: value === own.unit ? null : value }),
        ),
  );
}

function linearResult(
  measurand: MeasurandRecord,
  { coverage }: RunRecord,
  provisional: boolean,
  digits: Digits,
): HTMLElement {
  const { symbol, unit, linear } = measurand;
  const places = placesOfResult(measurand, digits);
  const text = (value: number, scale = 1): string =>
    fixed(value * scale, scale === 1 ? places : Math.max(0, places - 3));
  const k = fixed(linear.coverageFactor, 2);
  const found = toReport(measurand);
  const stands = found.kind === "linear" && !provisional;
  return html(
    "div",
    { class: "result", id: "result-linear", "data-stands": String(stands) },
    html(
      "h3",
      {},
      swatch("linear"),
      messages.monteCarlo.linear,
      standing(stands ? (found.fitted ? messages.toReport.withFactor : messages.toReport.mayStand) : null),
    ),
    html(
      "p",
      { class: "result-line" },
      symbolNode(symbol),
      " = ",
      plusMinus(text(linear.estimate), text(linear.expandedUncertainty), unit),
    ),
    inMillikelvin(measurand)
      ? html(
          "p",
          { class: "beside" },
          fillText(words.thatIs, {
            value: plusMinus(text(linear.estimate, 1000), text(linear.expandedUncertainty, 1000), "mK"),
          }),
        )
      : null,
    facts([
      [html("var", {}, "U"), withUnit(text(linear.expandedUncertainty), unit)],
      [html("var", {}, "k"), coverage.custom === "factor" ? fillText(words.fixed, { k }) : k],
      [html("var", {}, "p"), probabilityText(coverage.probability)],
      [[html("var", {}, "u"), "(", symbolNode(symbol), ")"], withUnit(twoDigits(linear.standardUncertainty), unit)],
      [symbolNode("ν_eff"), freedom(linear.effectiveDegreesOfFreedom)],
    ]),
  );
}

function monteCarloResult(
  measurand: MeasurandRecord,
  { coverage }: RunRecord,
  provisional: boolean,
  digits: Digits,
): HTMLElement {
  const { symbol, unit, monteCarlo, validation } = measurand;
  const interval = monteCarlo.intervals[coverage.interval];
  const places = placesOfResult(measurand, digits);
  const text = (value: number, scale = 1): string =>
    fixed(value * scale, scale === 1 ? places : Math.max(0, places - 3));
  const { estimate, standardUncertainty: u } = monteCarlo;
  const stands = toReport(measurand).kind === "monteCarlo" && !provisional;
  const undecided = standingOf(validation) === "undecided";
  return html(
    "div",
    { class: "result", id: "result-monte-carlo", "data-stands": String(stands) },
    html(
      "h3",
      {},
      swatch("monte-carlo"),
      messages.monteCarlo.monteCarlo,
      standing(stands ? (undecided ? messages.toReport.eitherWay : messages.toReport.interval) : null),
    ),
    html(
      "p",
      { class: "result-line" },
      labelNodes(
        labelOf(words.fromTo, { y: { symbol }, range: rangeWithUnit(text(interval[0]), text(interval[1]), unit) }),
      ),
    ),
    inMillikelvin(measurand)
      ? html(
          "p",
          { class: "beside" },
          fillText(words.thatIsFromTo, {
            range: rangeWithUnit(text(interval[0], 1000), text(interval[1], 1000), "mK"),
          }),
        )
      : null,
    facts([
      [html("var", {}, "p"), probabilityText(monteCarlo.probability)],
      [words.interval, messages.result[coverage.interval]],
      [words.estimate, estimate === null ? messages.none : withUnit(text(estimate), unit)],
      [[html("var", {}, "u"), "(", symbolNode(symbol), ")"], u === null ? messages.none : withUnit(twoDigits(u), unit)],
      [words.trials, whole(monteCarlo.trials)],
    ]),
  );
}

/** What a certificate states of this result. */
function onCertificate(measurand: Readable, record: RunRecord, digits: Digits): HTMLElement {
  const found = toReport(measurand);
  return html(
    "p",
    { class: "on-certificate", id: "on-certificate" },
    html("strong", {}, `${messages.toReport.head}: `),
    labelNodes(certificateStatement(measurand, record, speech, digits)),
    found.kind === "linear" && found.fitted ? ` ${messages.toReport.precedent}` : null,
  );
}

const twoDigits = (u: number): string => (u === 0 ? "0" : fixed(u, decimalsFor(u, 2)));

const standing = (text: string | null): HTMLElement | null =>
  text === null ? null : html("span", { class: "standing" }, text);

const facts = (rows: readonly (readonly [Child, string])[]): HTMLElement =>
  html(
    "dl",
    { class: "facts" },
    // Symbols equal their values, or are greater; words introduce theirs.
    rows.map(([term, value]) =>
      html(
        "div",
        {},
        html("dt", {}, term, typeof term === "string" ? ":" : value.startsWith(">") ? "" : " ="),
        html("dd", {}, value),
      ),
    ),
  );

/** Small differences in °C read better in millikelvin. */
const inMillikelvin = ({ unit, difference, linear }: MeasurandRecord): boolean =>
  ((unit === "°C" && difference === true) || unit === "K") &&
  Math.abs(linear.estimate) < 1 &&
  linear.expandedUncertainty < 0.5;
