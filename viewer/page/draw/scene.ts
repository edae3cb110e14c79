import { runsOf } from "../../present/pictures/label.ts";
import type { Label, Mark, Scene } from "../../present/pictures/scene.ts";
import { svg, type Child } from "./node.ts";
import { symbolSpan } from "./symbol.ts";

/** A scene as an SVG element of the page, whose style sheet has the look of each class. */
export const sceneNode = ({ class: className, width, height, name, marks }: Scene): SVGSVGElement =>
  svg(
    "svg",
    { class: className, width, height, viewBox: `0 0 ${width} ${height}`, role: "img", "aria-label": name },
    marks.map(markNode),
  );

export const labelNode = (label: Label): Child =>
  runsOf(label).map((run) => ("words" in run ? run.words : symbolSpan(run.symbol, run.after)));

export function markNode(mark: Mark): SVGElement {
  const className = mark.class === "" ? null : mark.class;
  switch (mark.mark) {
    case "path":
      return svg("path", { class: className, d: mark.d });
    case "circle":
      return svg("circle", { class: className, cx: mark.x, cy: mark.y, r: mark.r });
    case "rect":
      return svg("rect", { class: className, x: mark.x, y: mark.y, width: mark.width, height: mark.height });
    case "text":
      return svg(
        "text",
        { class: className, x: mark.x, y: mark.y, "text-anchor": mark.anchor === "start" ? null : mark.anchor },
        labelNode(mark.label),
      );
    case "group":
      return svg("g", { class: className }, mark.marks.map(markNode));
  }
}
