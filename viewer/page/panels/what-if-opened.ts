import { messages, words as pageWords } from "../language.ts";
import type { RunRecord } from "../../../engine/index.ts";
import { html } from "../draw/node.ts";
import { byMethod } from "../../present/differences.ts";
import { fillText } from "../../present/fill.ts";
import { labelOf } from "../../present/pictures/label.ts";
import type { Label } from "../../present/pictures/scene.ts";
import { standingOf, standingText, standingWords, type Judged } from "../../present/verdict.ts";
import { decimalsFor, dividedBy, overUnit } from "../../present/numbers.ts";
import { fixed, probabilityText, whole } from "../numbers.ts";
import { previewPicture } from "../draw/preview-picture.ts";
import { swatch } from "../draw/swatch.ts";
import { labelNodes, symbolSpan } from "../draw/symbol.ts";
import { conversionTo } from "../../present/units.ts";
import type {
  Computed,
  JudgedOthers,
  PreviewAnswer,
  PreviewedMeasurand,
  Previews,
  PreviewFailure,
} from "../what-if/protocol.ts";
import { createPreviewer } from "../what-if/previewer.ts";
import { keptAlternatives } from "../what-if/alternatives.ts";
import { changeLabels } from "../what-if/change-words.ts";
import { keptStudy } from "../what-if/kept-study.ts";
import { changedStudy, changeText, isEmpty, readChange, type StudyChange } from "../what-if/study-change.ts";
import type { View } from "./panel.ts";
import { createAlternatives, type Alternatives } from "./what-if-alternatives.ts";
import { computedPart } from "./what-if-computed.ts";
import { whatIfControls, type WhatIfControls } from "./what-if-controls.ts";

const words = messages.whatIfPanel;

/** Name of the page's performance entries: from a change to the frame that shows its first answer. */
const MEASURED = "what-if answer";

/** What stands in the panel's element from one draw to the next. */
interface Standing {
  readonly controls: WhatIfControls;
  readonly alternatives: Alternatives;
  readonly results: HTMLElement;
  readonly record: RunRecord;
  /** The change that was asked for last, as text. */
  asked: string | null;
  /** What was computed at once for the change that was asked for last. */
  computed: Computed | null;
  /** The last previews that came; they stand until those of the next change do. */
  previews: Previews | null;
  /** What trials said last of the kept changes. */
  judged: JudgedOthers | null;
  failure: PreviewFailure | null;
  view: View;
  name: string;
}

const previewer = createPreviewer();
const standing = new WeakMap<HTMLElement, Standing>();

/**
 * Draws the opened panel.
 *
 * @returns false if nothing asks for it: the reader did not open it, and the address names no change that holds
 */
export function showOpened(element: HTMLElement, record: RunRecord, name: string, view: View): boolean {
  const change = readChange(view.reading.tries, view.reading.pairs, record);
  const known = standing.get(element);
  if (known === undefined && isEmpty(change) && element.dataset.open === undefined) return false;
  const state = known !== undefined && known.record === record ? known : open(element, record, name, view);
  state.view = view;
  state.name = name;
  state.controls.set(change);
  state.alternatives.set(change);
  preview(state, change);
  show(state, change);
  return true;
}

function open(element: HTMLElement, record: RunRecord, name: string, view: View): Standing {
  const results = html("div", { class: "previewed" });
  const choose = (change: StudyChange): void => state.view.choose({ ...changeText(change) }, true);
  const state: Standing = {
    controls: whatIfControls(record, choose),
    alternatives: createAlternatives(
      record,
      keptAlternatives(record),
      choose,
      (change, named) => state.view.edit(keptStudy(record, change, named)),
      () => preview(state, readChange(state.view.reading.tries, state.view.reading.pairs, record)),
    ),
    results,
    record,
    asked: null,
    computed: null,
    previews: null,
    judged: null,
    failure: null,
    view,
    name,
  };
  standing.set(element, state);
  element.replaceChildren(html("p", {}, words.change), state.controls.element, state.alternatives.element, results);
  return state;
}

/** Asks for the previews of a change, unless they were asked for already. */
function preview(state: Standing, change: StudyChange): void {
  const others = state.alternatives.all();
  const text = JSON.stringify([changeText(change), others]);
  if (state.asked === text) return;
  state.asked = text;
  const start = performance.now();
  let first = true;
  previewer.ask(
    state.record.study,
    isEmpty(change) ? null : changedStudy(state.record, change),
    others.map((other) => changedStudy(state.record, other.change)),
    (answer: PreviewAnswer) => {
      if ("message" in answer) state.failure = answer;
      else if ("computed" in answer) [state.computed, state.failure] = [answer, null];
      else if ("judged" in answer) state.judged = answer;
      else [state.previews, state.failure] = [answer, null];
      show(state, change);
      if (first) requestAnimationFrame(() => performance.measure(MEASURED, { start, end: performance.now() }));
      first = false;
    },
  );
}

function show(state: Standing, change: StudyChange): void {
  const { results, record, previews, failure, name, view } = state;
  const changes = changeLabels(record, change, messages);
  if (failure !== null) {
    results.replaceChildren(
      html(
        "div",
        { class: "trouble small", role: "alert" },
        html("p", {}, words.cannot),
        html(
          "ul",
          {},
          (failure.problems.length === 0
            ? [failure.message]
            : failure.problems.map(({ place, value, accepted }) =>
                fillText(pageWords.frame.problem, { place, value: String(value), accepted }),
              )
          ).map((line) => html("li", {}, line)),
        ),
      ),
      takeBack(view, changes.length > 0),
    );
    return;
  }
  const computed =
    state.computed === null
      ? null
      : computedPart(
          record,
          name,
          view,
          state.computed,
          state.alternatives.all().map((one) => one.name),
          previews,
          state.judged,
        );
  if (previews === null) {
    results.replaceChildren(computed ?? "", html("p", { class: "note", role: "status" }, words.drawing));
    return;
  }
  const stated = previews.stated[name]!;
  const drawn = changes.length > 0 && previews.changed !== null;
  const changed = drawn ? previews.changed![name]! : stated;
  const { interval: kind } = record.coverage;
  const trials = (of: PreviewedMeasurand): Parameters<typeof previewPicture>[1] => ({
    histogram: of.monteCarlo.histogram,
    trials: of.monteCarlo.trials,
    interval: of.monteCarlo.intervals[kind],
  });
  results.replaceChildren(
    computed ?? "",
    html(
      "p",
      { class: "preview-mark", id: "preview-mark", role: "status" },
      html("strong", {}, words.preview),
      fillText(words.trials, { trials: whole(previews.trials) }),
      !drawn ? (changes.length === 0 ? words.nothingChanged : words.beingDrawn) : verdictWords(stated, changed),
    ),
    changes.length === 0
      ? ""
      : html(
          "ul",
          { class: "sentences", id: "preview-changes" },
          changes.map((line) => html("li", {}, labelNodes(line))),
        ),
    html(
      "p",
      { class: "key" },
      html("span", {}, swatch("monte-carlo"), words.changedKey),
      html("span", {}, statedSwatch(), words.statedKey),
    ),
    previewPicture(
      fillText(words.picture, { p: probabilityText(record.coverage.probability) }),
      trials(stated),
      trials(changed),
      view.width,
      symbolSpan(stated.symbol, overUnit("", stated.unit)),
    ),
    differences(state, stated, changed),
    html(
      "p",
      { class: "buttons" },
      html(
        "button",
        {
          type: "button",
          id: "keep",
          "data-needs": "run",
          disabled: !drawn,
          onclick: () => view.keep(keptStudy(record, change, "")),
        },
        words.keep,
      ),
      takeBack(view, changes.length > 0),
    ),
  );
}

/** The verdict of the changed preview, and that of the study as stated if it is another. */
function verdictWords(stated: PreviewedMeasurand, changed: PreviewedMeasurand): string {
  const [before, verdict] = [stated, changed].map(({ validation }) =>
    standingWords(standingOf(validation), messages),
  ) as [string, string];
  return before === verdict ? fillText(words.alike, { verdict }) : fillText(words.unlike, { verdict, before });
}

const statedSwatch = (): HTMLElement => html("span", { class: "stated-swatch", "aria-hidden": "true" });

const takeBack = ({ choose }: View, something: boolean): HTMLElement =>
  html(
    "button",
    {
      type: "button",
      class: "quiet",
      id: "take-back",
      disabled: !something,
      onclick: () => choose({ tries: null, pairs: null }, true),
    },
    words.takeBack,
  );

/** The figures of both previews and of the full run, and what the change makes of them. */
function differences(
  { record, name, view }: Standing,
  stated: PreviewedMeasurand,
  changed: PreviewedMeasurand,
): HTMLElement {
  const full = record.measurands[name]!;
  const { interval: kind } = record.coverage;
  const { factor, offset, unit } = (view.reading.unit === undefined ? null : conversionTo(full, view.reading.unit)) ?? {
    factor: 1,
    offset: 0,
    unit: full.unit,
  };
  const places = Math.max(
    0,
    decimalsFor(
      (full.linear.standardUncertainty || (full.monteCarlo.standardUncertainty ?? full.monteCarlo.histogram.width)) *
        factor,
      2,
    ) + 1,
  );
  type Of = (from: Pick<PreviewedMeasurand, "linear" | "monteCarlo">) => number | null;
  const compared = messages.compared;
  const y = { symbol: full.symbol };
  const [estimate, uncertainty] = [
    labelOf(compared.estimate, { y }),
    labelOf(compared.uncertainty, { u: { symbol: "u" }, y }),
  ];
  const { laneLinear, monteCarlo: byTrials, low, high } = messages.monteCarlo;
  const rows: [Label, Of, boolean][] = [
    [byMethod(estimate, laneLinear, messages), ({ linear }) => linear.estimate, true],
    [byMethod(uncertainty, laneLinear, messages), ({ linear }) => linear.standardUncertainty, false],
    [byMethod(low, laneLinear, messages), ({ linear }) => linear.interval[0], true],
    [byMethod(high, laneLinear, messages), ({ linear }) => linear.interval[1], true],
    [byMethod(estimate, byTrials, messages), ({ monteCarlo }) => monteCarlo.estimate, true],
    [byMethod(uncertainty, byTrials, messages), ({ monteCarlo }) => monteCarlo.standardUncertainty, false],
    [byMethod(low, byTrials, messages), ({ monteCarlo }) => monteCarlo.intervals[kind][0], true],
    [byMethod(high, byTrials, messages), ({ monteCarlo }) => monteCarlo.intervals[kind][1], true],
  ];
  const text = (value: number | null, absolute: boolean): string =>
    value === null ? messages.none : fixed(value * factor + (absolute ? offset : 0), places);
  const apart = (a: number | null, b: number | null): { readonly text: string; readonly same: boolean } => {
    if (a === null || b === null) return { text: "–", same: true };
    const difference = fixed((b - a) * factor, places);
    return Number(difference.replace("\u2212", "-")) === 0
      ? { text: "0", same: true }
      : { text: b > a ? `+${difference}` : difference, same: false };
  };
  const needed = (of: {
    readonly validation: Pick<PreviewedMeasurand["validation"], "coverageFactorNeeded">;
  }): string => {
    const k = of.validation.coverageFactorNeeded;
    return k === null ? "–" : fixed(k, 2);
  };
  const verdict = (of: { readonly validation: Judged }): string => standingText(standingOf(of.validation), messages);
  return html(
    "div",
    { class: "wide-table", tabindex: 0, role: "region", "aria-label": words.table, id: "preview-table" },
    html(
      "table",
      { class: "plain" },
      html("caption", {}, words.caption),
      html(
        "thead",
        {},
        html(
          "tr",
          {},
          html("th", { scope: "col" }, words.figure),
          [words.full, words.stated, words.changed, words.difference].map((head) => html("th", { scope: "col" }, head)),
        ),
      ),
      html(
        "tbody",
        {},
        rows.map(([label, of, absolute]) => {
          const difference = apart(of(stated), of(changed));
          return html(
            "tr",
            { class: difference.same ? null : "differs" },
            html("th", { scope: "row" }, labelNodes(label), dividedBy(unit)),
            [full, stated, changed].map((from) => html("td", {}, text(of(from), absolute))),
            html("td", {}, difference.text),
          );
        }),
        html(
          "tr",
          {},
          html("th", { scope: "row" }, labelNodes(labelOf(words.needed, { k: { symbol: "k" } }))),
          [full, stated, changed].map((from) => html("td", {}, needed(from))),
          html("td", {}, ""),
        ),
        html(
          "tr",
          { class: verdict(stated) === verdict(changed) ? null : "differs" },
          html("th", { scope: "row" }, words.budget),
          [full, stated, changed].map((from) => html("td", {}, verdict(from))),
          html("td", {}, ""),
        ),
      ),
    ),
  );
}
