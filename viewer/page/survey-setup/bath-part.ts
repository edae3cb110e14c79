import { FLUIDS } from "../../present/fluids.ts";
import { html } from "../draw/node.ts";
import type { SetUp } from "./draft.ts";
import { field, input, select, redrawTyping } from "../evidence/field.ts";

const ARRANGEMENTS: readonly (readonly [string, string])[] = [
  ["reference-fixed", "reference at its position, probes anywhere in the zone"],
  ["midpoint", "the same, corrected to the middle of the zone"],
  ["anywhere", "both anywhere in the zone"],
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
      html("h2", { id: "setup-bath-title", tabindex: -1 }, "The bath, and what is asked of it"),
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
        head.replaceChildren(text("title", "Name of the survey", "", true), text("notes", "Notes", "", true)),
      );
      redrawTyping(body, () =>
        body.replaceChildren(
          chosen(
            "fluid",
            "Fluid",
            FLUIDS,
            "Its hazards are printed with the result. The fluid’s own safety data sheet decides.",
          ),
          text("setTemperature", "Set temperature / °C"),
          text("flashPoint", "Flash point / °C", "Closed cup, by the safety data sheet."),
          text("overTemperatureCutOut", "Over-temperature cut-out / °C"),
          text("calibrationMinutes", "One calibration takes / min"),
          text("settlingMinutes", "Settling after a move / min"),
          text(
            "windowMinutes",
            "Window of stability / min",
            "If empty: 30 min, or the calibration if that takes longer.",
          ),
          text("cycleMinutes", "One drift-corrected cycle / min", "Only if the comparison is read in cycles."),
          text("zoneFrom", "Zone from depth / mm", "If empty: all that was surveyed."),
          text("zoneTo", "Zone to depth / mm"),
          text("zoneRadius", "Zone to radius / mm"),
          text(
            "maximumGapSeconds",
            "Longest silence of the log / s",
            "If empty: 2.5 usual intervals. A logger that writes at uneven times needs more.",
          ),
          chosen("arrangement", "Where the thermometers stand in use", ARRANGEMENTS),
        ),
      );
    },
  };
}
