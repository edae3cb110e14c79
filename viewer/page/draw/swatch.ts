import type { Standing } from "../../present/verdict.ts";
import { svg } from "./node.ts";

/** The sample that stands for a method in keys and headings: dashed, a line, or filled. */
export const swatch = (method: "linear" | "linearised" | "monte-carlo"): SVGSVGElement =>
  svg(
    "svg",
    { class: "swatch", width: 26, height: 12, viewBox: "0 0 26 12", "aria-hidden": "true" },
    method !== "monte-carlo"
      ? svg("path", { class: `${method}-line`, d: "M0 6H26" })
      : [
          svg("path", { class: "trials-area", d: "M0 2H26V12H0Z" }),
          svg("path", { class: "trials-line", d: "M0 2H26" }),
        ],
  );

/** What stands in the ring of the mark: equal, unequal, or a question. */
const SHAPES: Readonly<Record<Standing, string>> = {
  validated: "M11 16H29M11 24H29",
  notValidated: "M11 16H29M11 24H29M25 9L15 31",
  undecided: "M14 16C14 8 26 8 26 15C26 20 20 19 20 24M20 28V30.5",
  nothingVaries: "M11 20H29",
};

/** The mark of a verdict, which differs in shape. */
export const verdictMark = (standing: Standing): SVGSVGElement =>
  svg(
    "svg",
    { class: "verdict-mark", width: 40, height: 40, viewBox: "0 0 40 40", "aria-hidden": "true" },
    svg("circle", { cx: 20, cy: 20, r: 18.5 }),
    svg("path", { d: SHAPES[standing] }),
  );
