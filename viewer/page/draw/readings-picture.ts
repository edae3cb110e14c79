import { axisBelow, scaleOver } from "./axis.ts";
import { svg, type Child } from "./node.ts";

const HEIGHT = 86;
const BASE = 50;

/** Indications as dots along their values, equal ones piled up, with their mean and the mean ± u. */
export function readingsPicture(
  values: readonly number[],
  mean: number,
  u: number,
  width: number,
  unit: Child,
  name: string,
): SVGSVGElement {
  const [least, greatest] = [Math.min(...values, mean - u), Math.max(...values, mean + u)];
  const margin = 0.08 * (greatest - least) || 1;
  const x = scaleOver([least - margin, greatest + margin], [8, width - 8]);
  const heights = new Map<number, number>();
  const dots = values.map((value) => {
    const place = Math.round(x(value) / 6);
    const below = heights.get(place) ?? 0;
    heights.set(place, below + 1);
    return svg("circle", {
      class: "reading-dot",
      cx: x(value).toFixed(1),
      cy: BASE - 6 - 7 * Math.min(below, 5),
      r: 3,
    });
  });
  return svg(
    "svg",
    { class: "readings", width, height: HEIGHT, viewBox: `0 0 ${width} ${HEIGHT}`, role: "img", "aria-label": name },
    svg("path", {
      class: "distance",
      d: `M${x(mean - u)} 8H${x(mean + u)}M${x(mean - u)} 4v8M${x(mean + u)} 4v8M${x(mean)} 2v12`,
    }),
    dots,
    axisBelow(x, BASE, width),
    svg("text", { class: "axis-title", x: width / 2, y: HEIGHT - 2, "text-anchor": "middle" }, unit),
  );
}
