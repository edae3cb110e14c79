import { html } from "../draw/node.ts";
import { choice, idOf, labelled, numberInput, textInput, type Spots } from "./controls.ts";
import type { Draft } from "./draft.ts";

/** What the run is asked for, in one line. */
export const settingsWords = ({ custom, probability, factor, trials, count, significantDigits, seed }: Draft): string =>
  [
    custom === "probability" ? `p = ${probability}` : `k = ${factor}`,
    `${significantDigits} ${significantDigits === "1" ? "digit" : "digits"} of u`,
    trials === "adaptive" ? "as many trials as the figures need" : `${count} trials`,
    `seed ${seed}`,
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
              label: "Probability",
              name: "coverage probability",
              help: "More than 0.5, less than 1; k is then t at p and ν_eff",
            },
            numberInput(draft.probability, (probability) => change({ probability })),
            spots,
          )
        : labelled(
            {
              place: "coverage.factor",
              label: "Factor",
              name: "coverage factor",
              help: "Fixed k; the trials' interval is then taken at what k claims for a normal",
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
              label: "At most",
              name: "most trials",
              help: "20 000 to 20 000 000, which it is where nothing is stated",
            },
            numberInput(draft.maximumTrials, (maximumTrials) => change({ maximumTrials })),
            spots,
          )
        : labelled(
            { place: "trials", label: "Number", name: "number of trials", help: "1000 to 20 000 000" },
            numberInput(draft.count, (text) => change({ count: text })),
            spots,
          ),
    );
  };
  const chooseCustom = choice(
    custom,
    [
      ["probability", "probability p"],
      ["factor", "fixed factor k"],
    ],
    (chosen) => {
      now = { ...now, custom: chosen };
      change({ custom: chosen });
      drawValue();
    },
  );
  spots.set("coverage", { place: "coverage", name: "coverage", control: chooseCustom, message });
  const chooseTrials = choice(
    trials,
    [
      ["adaptive", "as many as the figures need"],
      ["count", "a number"],
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
    plain("coverage", "Coverage stated by", chooseCustom),
    value,
    plain(
      "coverage.interval",
      "Interval to compare with",
      choice(
        draft.interval,
        [
          ["symmetric", "probabilistically symmetric"],
          ["shortest", "shortest"],
        ],
        (interval) => change({ interval }),
      ),
    ),
    plain(
      "significantDigits",
      "Digits of u held meaningful",
      choice(
        draft.significantDigits,
        [
          ["2", "2"],
          ["1", "1"],
        ],
        (significantDigits) => change({ significantDigits }),
      ),
      "They set δ (JCGM 101, 7.9.2)",
    ),
    plain("trials-custom", "Trials", chooseTrials, "Settled to δ/5 (JCGM 101, 7.9), or a number"),
    count,
    plain(
      "undefinedTrials",
      "If the model has no value for some trials",
      choice(
        draft.undefinedTrials,
        [
          ["", "end the run"],
          ["leave-out", "leave those trials out, and count them"],
        ],
        (undefinedTrials) => change({ undefinedTrials }),
      ),
      "Left out, the result is that of the inputs for which the model is defined",
    ),
    plain(
      "generator",
      "Random numbers",
      choice(
        draft.generator,
        [
          ["", "the usual generator"],
          ["mt19937", "a second generator, to compare with"],
        ],
        (generator) => change({ generator }),
      ),
    ),
    labelled(
      { place: "seed", label: "Seed", name: "seed", help: "A run with the same seed reproduces exactly, bit for bit" },
      textInput(draft.seed, (seed) => change({ seed }), { spellcheck: "false" }),
      spots,
    ),
    message,
  );
  drawValue();
  drawCount();
  return element;
}
