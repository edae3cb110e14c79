import type { Numbers } from "../numbers.ts";
import { axisBelow, scaleOver } from "./axis.ts";
import { labelText } from "./label.ts";
import { path, px, rect, text, type Label, type Scene } from "./scene.ts";

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
  readonly linearLabel: Label;
  readonly monteCarloLabel: Label;
  readonly differenceLabel: Label;
  readonly toleranceLabel: Label;
  readonly axisLabel: Label;
}

/** About the width of a letter. */
const LETTER = 6.2;
const HEIGHT = 146;
const BASE = 100;

/** Half-width that shows tolerance, differences and their ±2 standard errors of both ends at one scale. */
export const reachFor = (
  differences: readonly number[],
  tolerance: number,
  errors: readonly (number | null)[] | null,
): number =>
  Math.max(
    1.7 * tolerance,
    ...differences.map((d, end) => Math.max(1.5 * Math.abs(d), 1.05 * (Math.abs(d) + 2 * (errors?.[end] ?? 0)))),
  ) || 1;

/**
 * The linear end at zero with the tolerance either side as a hatched band, the Monte Carlo end with ±2 standard errors,
 * and the distance between them: inside the band the end agrees.
 */
export function endScene(end: EndComparison, numbers: Numbers): Scene {
  const { width, difference: d, tolerance: δ, standardError } = end;
  const x = scaleOver([-end.reach, end.reach], [6, width - 6]);
  const zero = x(0);
  const there = x(d);
  const wide = x(δ) - x(-δ) > 90;
  const outward = d < 0 ? -1 : 1;
  // Where there is no room for it outwards the label turns inwards, so that it stays on the picture.
  const inward = (outward > 0 ? width - there : there) < 10 + LETTER * labelText(end.monteCarloLabel).length;
  const edge = x(-δ * outward);
  return {
    class: "end",
    width,
    height: HEIGHT,
    name: end.name,
    marks: [
      rect("tolerance", x(-δ), 36, x(δ) - x(-δ), BASE - 36),
      axisBelow(x, BASE, width, numbers),
      path("linear-line", `M${px(zero)} 8V${BASE}`),
      text("halo", zero - 7 * outward, 16, end.linearLabel, side(-outward)),
      path("trials-rule", `M${px(there)} 24V${BASE}`),
      text("halo", there + (inward ? -7 : 7) * outward, 31, end.monteCarloLabel, side(inward ? -outward : outward)),
      ...(standardError === null
        ? []
        : [path("whisker", span(x(d - 2 * standardError), x(d + 2 * standardError), 48))]),
      path("distance", span(zero, there, 66)),
      // Over its own line where that is long enough, beside the linear end where it is not.
      Math.abs(there - zero) > 70
        ? text("halo strong", (zero + there) / 2, 61, end.differenceLabel, "middle")
        : text("halo strong", zero - 7 * outward, 70, end.differenceLabel, side(-outward)),
      path("tolerance-rule", span(zero, edge, 88)),
      wide
        ? text("halo", (zero + edge) / 2, 84, end.toleranceLabel, "middle")
        : text("halo", edge - 7 * outward, 92, end.toleranceLabel, side(-outward)),
      text("axis-title", width / 2, BASE + 38, end.axisLabel, "middle"),
    ],
  };
}

/** Anchor of a text that runs to the right (1) or the left (−1) of its place. */
const side = (direction: number): "start" | "end" => (direction > 0 ? "start" : "end");

/** A line with a stroke at either end. */
const span = (from: number, to: number, y: number): string =>
  `M${px(from)} ${y}H${px(to)}M${px(from)} ${y - 4}v8M${px(to)} ${y - 4}v8`;
