import { words } from "../later-words.ts";
import { FLUIDS } from "../fluids.ts";
import { html } from "../draw/node.ts";
import type { SetUp } from "./draft.ts";
import { field, input, select, redrawTyping } from "../evidence/field.ts";

const ARRANGEMENTS: readonly (readonly [string, string])[] = [
  ["reference-fixed", words.surveySetup.arrangements.fixed],
  ["midpoint", words.surveySetup.arrangements.midpoint],
  ["anywhere", words.surveySetup.arrangements.anywhere],
];

type Text = Exclude<{ [K in keyof SetUp]: SetUp[K] extends string ? K : never }[keyof SetUp], undefined>;

/** The title, the bath and its safety, how it is calibrated, and the zone. */
export function createBathPart(changed: () => void): {
  readonly head: HTMLElement;
  readonly element: HTMLElement;
  readonly draw: (draft: SetUp) => void;
} {
  const head = html("div", { class: "fields" });
  const body = html("div", { class: "fields" });
  return {
    head,
    element: html(
      "section",
      { class: "panel", id: "setup-bath", "aria-labelledby": "setup-bath-title" },
      html("h2", { id: "setup-bath-title", tabindex: -1 }, words.surveySetup.bath),
      body,
    ),
    draw: (draft) => {
      const text = (name: Text, label: string, help = "", wide = false): HTMLElement =>
        field(
          `setup-${name}`,
          label,
          input(
            draft[name],
            (value) => {
              draft[name] = value;
              changed();
            },
            wide ? {} : { class: "figure" },
          ),
          help,
          wide,
        );
      const chosen = (
        name: Text,
        label: string,
        options: readonly (readonly [string, string])[],
        help = "",
      ): HTMLElement =>
        field(
          `setup-${name}`,
          label,
          select(draft[name], options, (value) => {
            draft[name] = value;
            changed();
          }),
          help,
          true,
        );
      redrawTyping(head, () =>
        head.replaceChildren(
          text("title", words.surveySetup.name, "", true),
          text("notes", words.surveySetup.notes, "", true),
        ),
      );
      redrawTyping(body, () =>
        body.replaceChildren(
          chosen("fluid", words.surveySetup.fluid, FLUIDS, words.surveySetup.fluidHelp),
          text("setTemperature", words.surveySetup.setTemperature),
          text("flashPoint", words.surveySetup.flashPoint, words.surveySetup.flashPointHelp),
          text("overTemperatureCutOut", words.surveySetup.cutOut),
          text("calibrationMinutes", words.surveySetup.calibration),
          text("settlingMinutes", words.surveySetup.settling),
          text("windowMinutes", words.surveySetup.window, words.surveySetup.windowHelp),
          text("cycleMinutes", words.surveySetup.cycle, words.surveySetup.cycleHelp),
          text("zoneFrom", words.surveySetup.zoneFrom, words.surveySetup.zoneFromHelp),
          text("zoneTo", words.surveySetup.zoneTo),
          text("zoneRadius", words.surveySetup.zoneRadius),
          text("maximumGapSeconds", words.surveySetup.silence, words.surveySetup.silenceHelp),
          chosen("arrangement", words.surveySetup.arrangement, ARRANGEMENTS),
        ),
      );
    },
  };
}
