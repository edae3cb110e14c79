import { svg } from "./node.ts";

/** The sample that stands for a method in keys and headings: dashed outline or filled. */
export const swatch = (method: "linear" | "monte-carlo"): SVGSVGElement =>
  svg(
    "svg",
    { class: "swatch", width: 26, height: 12, viewBox: "0 0 26 12", "aria-hidden": "true" },
    method === "linear"
      ? svg("path", { class: "linear-line", d: "M0 6H26" })
      : [
          svg("path", { class: "trials-area", d: "M0 2H26V12H0Z" }),
          svg("path", { class: "trials-line", d: "M0 2H26" }),
        ],
  );

/** Equal or unequal signs in a ring: the mark of the verdict, told by its shape. */
export const verdictMark = (validated: boolean): SVGSVGElement =>
  svg(
    "svg",
    { class: "verdict-mark", width: 40, height: 40, viewBox: "0 0 40 40", "aria-hidden": "true" },
    svg("circle", { cx: 20, cy: 20, r: 18.5 }),
    svg("path", { d: `M11 16H29M11 24H29${validated ? "" : "M25 9L15 31"}` }),
  );
