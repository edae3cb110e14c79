import { runsOf } from "../../present/pictures/label.ts";
import type { Label, Mark, Scene } from "../../present/pictures/scene.ts";
import { html, type Child, type Markup } from "../markup.ts";
import { symbolSpans } from "../symbol.ts";
import { hatching, picture } from "./axis.ts";

/**
 * A scene as SVG text; the report's style sheet has the look of each class.
 *
 * @param className "half" for a picture of half the measure
 * @param hatch id of its hatching, one for each picture, where it has a hatched part
 */
export const sceneMarkup = (
  { class: own, width, height, name, marks }: Scene,
  className = "",
  hatch: string | null = null,
): Markup =>
  picture(
    width,
    height,
    name,
    html`${hatch === null ? null : hatching(hatch)}${marks.map((mark) => markMarkup(mark, hatch))}`,
    `${own} ${className}`.trimEnd(),
  );

const labelMarkup = (label: Label): Child =>
  runsOf(label).map((run) => ("words" in run ? run.words : symbolSpans(run.symbol, run.after)));

function markMarkup(mark: Mark, hatch: string | null): Markup {
  switch (mark.mark) {
    case "path":
      return html`<path class="${mark.class}" d="${mark.d}" />`;
    case "circle":
      return html`<circle class="${mark.class}" cx="${mark.x}" cy="${mark.y}" r="${mark.r}" />`;
    case "rect": {
      const fill = mark.class === "tolerance" && hatch !== null ? html` fill="url(#${hatch})"` : null;
      return html`<rect
        class="${mark.class}"
        ${fill}
        x="${mark.x}"
        y="${mark.y}"
        width="${mark.width}"
        height="${mark.height}"
      />`;
    }
    case "text":
      return html`<text class="${mark.class}" x="${mark.x}" y="${mark.y}" text-anchor="${mark.anchor}"
        >${labelMarkup(mark.label)}</text
      >`;
    case "group":
      return html`<g class="${mark.class}">${mark.marks.map((one) => markMarkup(one, hatch))}</g>`;
  }
}
