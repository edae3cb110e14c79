import { messages, speech } from "../language.ts";
import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { html } from "../draw/node.ts";
import { choice, idOf, labelled, numberInput, textInput, type Spots } from "./controls.ts";
import type { Draft } from "./draft.ts";

/** What the run is asked for, in one line. */
export const settingsWords = ({ custom, probability, factor, trials, count, significantDigits, seed }: Draft): string =>
  [
    (custom === "probability" ? `p = ${probability}` : `k = ${factor}`).replace(".", speech.numbers.decimalSign),
    significantDigits === "1" ? words.studyForm.settings.oneDigit : words.studyForm.settings.twoDigits,
    trials === "adaptive"
      ? words.studyForm.settings.adaptiveTrials
      : fillText(words.studyForm.settings.trials, { n: count }),
    fillText(words.studyForm.settings.seedIs, { seed }),
  ].join(" · ");

/** Coverage, digits, trials and seed. @param change told of what changed */
export function settingsFields(draft: Draft, spots: Spots, change: (part: Partial<Draft>) => void): HTMLElement {
  const { custom, trials } = draft;
  const message = html("p", { class: "field-problem" });
  const value = html("span", { class: "own-fields" });
  const count = html("span", { class: "own-fields" });
  let now = { custom, trials };
  const drawValue = (): void => {
    for (const place of ["coverage.probability", "coverage.factor"]) spots.delete(place);
    value.replaceChildren(
      now.custom === "probability"
        ? labelled(
            {
              place: "coverage.probability",
              label: words.studyForm.settings.probability,
              name: words.studyForm.said.probability,
              help: words.studyForm.settings.probabilityHelp,
            },
            numberInput(draft.probability, (probability) => change({ probability })),
            spots,
          )
        : labelled(
            {
              place: "coverage.factor",
              label: words.studyForm.settings.factor,
              name: words.studyForm.said.factor,
              help: words.studyForm.settings.factorHelp,
            },
            numberInput(draft.factor, (factor) => change({ factor })),
            spots,
          ),
    );
  };
  const drawCount = (): void => {
    spots.delete("maximumTrials");
    if (now.trials === "adaptive") spots.delete("trials");
    count.replaceChildren(
      now.trials === "adaptive"
        ? labelled(
            {
              place: "maximumTrials",
              label: words.studyForm.settings.atMost,
              name: words.studyForm.said.mostTrials,
              help: words.studyForm.settings.atMostHelp,
            },
            numberInput(draft.maximumTrials, (maximumTrials) => change({ maximumTrials })),
            spots,
          )
        : labelled(
            {
              place: "trials",
              label: words.studyForm.settings.number,
              name: words.studyForm.said.trials,
              help: words.studyForm.settings.numberHelp,
            },
            numberInput(draft.count, (text) => change({ count: text })),
            spots,
          ),
    );
  };
  const chooseCustom = choice(
    custom,
    [
      ["probability", words.studyForm.settings.byProbability],
      ["factor", words.studyForm.settings.byFactor],
    ],
    (chosen) => {
      now = { ...now, custom: chosen };
      change({ custom: chosen });
      drawValue();
    },
  );
  spots.set("coverage", { place: "coverage", name: words.studyForm.said.coverage, control: chooseCustom, message });
  const chooseTrials = choice(
    trials,
    [
      ["adaptive", messages.compared.adaptive],
      ["count", words.studyForm.settings.count],
    ],
    (chosen) => {
      now = { ...now, trials: chosen };
      change({ trials: chosen });
      drawCount();
    },
  );
  const plain = (id: string, label: string, control: HTMLSelectElement, help = ""): HTMLElement => {
    control.id = idOf(id);
    control.dataset.place = id;
    return html(
      "p",
      { class: "field" },
      html("label", { for: control.id }, label),
      control,
      help === "" ? null : html("span", { class: "note" }, help),
    );
  };
  const element = html(
    "div",
    { class: "fields settings" },
    plain("coverage", words.studyForm.settings.coverageBy, chooseCustom),
    value,
    plain(
      "coverage.interval",
      words.studyForm.settings.interval,
      choice(
        draft.interval,
        [
          ["symmetric", words.studyForm.settings.symmetric],
          ["shortest", words.studyForm.settings.shortest],
        ],
        (interval) => change({ interval }),
      ),
    ),
    plain(
      "significantDigits",
      words.studyForm.settings.digits,
      choice(
        draft.significantDigits,
        [
          ["2", "2"],
          ["1", "1"],
        ],
        (significantDigits) => change({ significantDigits }),
      ),
      words.studyForm.settings.digitsHelp,
    ),
    plain("trials-custom", words.studyForm.settings.trialsTitle, chooseTrials, words.studyForm.settings.trialsHelp),
    count,
    plain(
      "undefinedTrials",
      words.studyForm.settings.undefined,
      choice(
        draft.undefinedTrials,
        [
          ["", words.studyForm.settings.endRun],
          ["leave-out", words.studyForm.settings.leaveOut],
        ],
        (undefinedTrials) => change({ undefinedTrials }),
      ),
      words.studyForm.settings.undefinedHelp,
    ),
    plain(
      "generator",
      words.studyForm.settings.generator,
      choice(
        draft.generator,
        [
          ["", words.studyForm.settings.usual],
          ["mt19937", words.studyForm.settings.second],
        ],
        (generator) => change({ generator }),
      ),
    ),
    labelled(
      {
        place: "seed",
        label: words.studyForm.settings.seed,
        name: words.studyForm.said.seed,
        help: words.studyForm.settings.seedHelp,
      },
      textInput(draft.seed, (seed) => change({ seed }), { spellcheck: "false" }),
      spots,
    ),
    message,
  );
  drawValue();
  drawCount();
  return element;
}
