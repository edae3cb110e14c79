import { messages } from "../language.ts";
import { html } from "../draw/node.ts";
import { probabilityText, whole } from "../numbers.ts";
import { choiceSwitch, listSlider } from "../draw/switch.ts";
import type { View } from "./panel.ts";
import type { Zoom } from "./value-range.ts";

const said = messages.distributionFigures;

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
  const probability = listSlider("probability", said.coverage, probabilityText, (p) => choose({ p: String(p) }));
  const bins = listSlider("bins", said.binCount, whole, (count) => choose({ bins: String(count) }));
  const back = html(
    "button",
    { type: "button", class: "quiet small", id: "own-values", onclick: () => choose({ p: null, bins: null }) },
    said.back,
  );
  const sliders = html("div", { class: "sliders" }, probability.element, bins.element, back);
  return {
    element: html("div", { class: "controls", role: "group", "aria-label": said.controls }, switches, sliders),
    set(choice, now) {
      view = now;
      const active = document.activeElement?.id ?? "";
      switches.replaceChildren(
        choiceSwitch(
          "pictured",
          said.picture,
          [
            { value: "density", label: said.density },
            { value: "distribution", label: said.distribution },
            { value: "quantiles", label: said.quantiles },
          ],
          choice.pictured,
          (value) => choose({ view: value === "density" ? null : value }),
        ),
        choiceSwitch(
          "zoom",
          said.part,
          [
            { value: "low", label: said.lower },
            { value: "whole", label: said.whole },
            { value: "high", label: said.upper },
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
