import { axisBelow, scaleOver } from "./axis.ts";
import { svg } from "./node.ts";

/** One end of the two intervals, to be drawn large. */
export interface EndComparison {
  /** Name for people who do not see the picture, with the numbers. */
  readonly name: string;
  /** Monte Carlo end less linear end. */
  readonly difference: number;
  /** Standard error of the Monte Carlo end; `null` where unknown. */
  readonly standardError: number | null;
  readonly tolerance: number;
  /** Value at the edges of the picture, either side of the linear end. */
  readonly reach: number;
  readonly width: number;
  readonly differenceLabel: string;
  readonly toleranceLabel: string;
  readonly axisLabel: string;
}

/** Height of the picture. */
const HEIGHT = 146;
const BASE = 100;

/** Half-width that shows tolerance and differences of both ends at one scale. */
export const reachFor = (differences: readonly number[], tolerance: number): number =>
  Math.max(1.7 * tolerance, ...differences.map((d) => 1.5 * Math.abs(d)));

/**
 * The linear end at zero with the tolerance either side as a hatched band, the Monte Carlo end with ±2 standard errors,
 * and the distance between them: inside the band the end agrees.
 */
export function endComparison(end: EndComparison): SVGSVGElement {
  const { width, difference: d, tolerance: δ, standardError } = end;
  const x = scaleOver([-end.reach, end.reach], [6, width - 6]);
  const zero = x(0);
  const there = x(d);
  const wide = x(δ) - x(-δ) > 90;
  const outward = d < 0 ? -1 : 1;
  // Beyond the middle of its half the label turns inwards, so that it stays on the picture.
  const inward = Math.abs(d) > 0.45 * end.reach;
  return svg(
    "svg",
    { class: "end", width, height: HEIGHT, viewBox: `0 0 ${width} ${HEIGHT}`, role: "img", "aria-label": end.name },
    svg("rect", { class: "tolerance", x: x(-δ), y: 36, width: x(δ) - x(-δ), height: BASE - 36 }),
    axisBelow(x, BASE, width),
    svg("path", { class: "linear-line", d: `M${zero} 8V${BASE}` }),
    svg("text", { class: "halo", x: zero - 7 * outward, y: 16, "text-anchor": side(-outward) }, "linear end"),
    svg("path", { class: "trials-rule", d: `M${there} 24V${BASE}` }),
    svg(
      "text",
      {
        class: "halo",
        x: there + (inward ? -7 : 7) * outward,
        y: 31,
        "text-anchor": side(inward ? -outward : outward),
      },
      "Monte Carlo end",
    ),
    standardError === null
      ? null
      : svg("path", { class: "whisker", d: whisker(x(d - 2 * standardError), x(d + 2 * standardError), 48) }),
    svg("path", { class: "distance", d: `M${zero} 66H${there}M${zero} 62v8M${there} 62v8` }),
    // Over its own line where that is long enough, beside the linear end where it is not.
    Math.abs(there - zero) > 70
      ? svg(
          "text",
          { class: "halo strong", x: (zero + there) / 2, y: 61, "text-anchor": "middle" },
          end.differenceLabel,
        )
      : svg(
          "text",
          { class: "halo strong", x: zero - 7 * outward, y: 70, "text-anchor": side(-outward) },
          end.differenceLabel,
        ),
    svg("path", { class: "tolerance-rule", d: `M${zero} 88H${x(-δ * outward)}M${zero} 84v8M${x(-δ * outward)} 84v8` }),
    svg(
      "text",
      wide
        ? { class: "halo", x: (zero + x(-δ * outward)) / 2, y: 84, "text-anchor": "middle" }
        : { class: "halo", x: x(-δ * outward) - 7 * outward, y: 92, "text-anchor": side(-outward) },
      end.toleranceLabel,
    ),
    svg("text", { class: "axis-title", x: width / 2, y: BASE + 38, "text-anchor": "middle" }, end.axisLabel),
  );
}

/** Anchor of a text that runs to the right (1) or the left (−1) of its place. */
const side = (direction: number): "start" | "end" => (direction > 0 ? "start" : "end");

const whisker = (from: number, to: number, y: number): string =>
  `M${from} ${y}H${to}M${from} ${y - 4}v8M${to} ${y - 4}v8`;
