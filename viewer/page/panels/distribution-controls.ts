import { html } from "../draw/node.ts";
import { probabilityText, whole } from "../../present/numbers.ts";
import { choiceSwitch, listSlider } from "../draw/switch.ts";
import type { View } from "./panel.ts";
import type { Zoom } from "./value-range.ts";

/** Which picture of the two distributions is drawn. */
export type Pictured = "density" | "distribution" | "quantiles";
export const isPictured = (name: string | undefined): name is Pictured =>
  name === "density" || name === "distribution" || name === "quantiles";

/** What the controls show. */
export interface DistributionChoice {
  readonly pictured: Pictured;
  readonly zoom: Zoom;
  readonly p: number;
  readonly probabilities: readonly number[];
  readonly bins: number;
  readonly offered: readonly number[];
  /** Whether probability and bins are the record's own. */
  readonly own: boolean;
}

export interface DistributionControls {
  readonly element: HTMLElement;
  set(choice: DistributionChoice, view: View): void;
}

/** Switches and sliders above the picture. They outlive its redraws, so that a slider can be dragged. */
export function distributionControls(): DistributionControls {
  let view: View | null = null;
  const choose = (change: Readonly<Record<string, string | null>>): void => view?.choose(change, true);
  const switches = html("div", { class: "switches" });
  const probability = listSlider("probability", "Coverage", probabilityText, (p) => choose({ p: String(p) }));
  const bins = listSlider("bins", "Bins", whole, (count) => choose({ bins: String(count) }));
  const back = html(
    "button",
    { type: "button", class: "quiet small", id: "own-values", onclick: () => choose({ p: null, bins: null }) },
    "Back to the study’s own",
  );
  const sliders = html("div", { class: "sliders" }, probability.element, bins.element, back);
  return {
    element: html(
      "div",
      { class: "controls", role: "group", "aria-label": "How the picture is drawn" },
      switches,
      sliders,
    ),
    set(choice, now) {
      view = now;
      const active = document.activeElement?.id ?? "";
      switches.replaceChildren(
        choiceSwitch(
          "pictured",
          "Picture",
          [
            { value: "density", label: "density" },
            { value: "distribution", label: "distribution function" },
            { value: "quantiles", label: "Q–Q plot" },
          ],
          choice.pictured,
          (value) => choose({ view: value === "density" ? null : value }),
        ),
        choiceSwitch(
          "zoom",
          "Part",
          [
            { value: "low", label: "lower endpoint" },
            { value: "whole", label: "whole" },
            { value: "high", label: "upper endpoint" },
          ],
          choice.zoom,
          (value) => choose({ zoom: value === "whole" ? null : value }),
        ),
      );
      if (active !== "") {
        const again = switches.querySelector<HTMLElement>(`#${CSS.escape(active)}`);
        if (again !== null && document.activeElement !== again) again.focus({ preventScroll: true });
      }
      probability.set(choice.probabilities, choice.p);
      bins.set(choice.offered, choice.bins);
      bins.element.hidden = choice.pictured !== "density";
      back.hidden = choice.own;
    },
  };
}
