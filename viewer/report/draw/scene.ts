import { runsOf } from "../../present/pictures/label.ts";
import type { Label, Mark, Scene } from "../../present/pictures/scene.ts";
import { html, type Child, type Markup } from "../markup.ts";
import { symbolSpans } from "../symbol.ts";

/** Width of a picture that runs over the whole measure. */
export const WIDE = 660;

/** Width of one of two pictures side by side. */
export const HALF = 322;

/** Hatching within the numerical tolerance; an id of its own for each picture. */
const hatching = (id: string): Markup =>
  html`<defs
    ><pattern id="${id}" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"
      ><path d="M0 0V5" class="hatch" /></pattern
  ></defs>`;

/**
 * A scene as SVG text; the report's style sheet has the look of each class.
 *
 * @param className "half" for a picture of half the measure
 * @param hatch id of its hatching, one for each picture, if it has a hatched part
 */
export const sceneMarkup = (
  { class: own, width, height, name, marks }: Scene,
  className = "",
  hatch: string | null = null,
): Markup =>
  html`<svg
    class="${`${own} ${className}`.trimEnd()}"
    viewBox="0 0 ${width} ${height}"
    width="${width}"
    height="${height}"
    role="img"
    aria-label="${name}"
  >
    ${hatch === null ? null : hatching(hatch)}${marks.map((mark) => markMarkup(mark, hatch))}
  </svg>`;

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
