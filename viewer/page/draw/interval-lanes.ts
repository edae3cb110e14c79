import type { Scale } from "./axis.ts";
import { svg } from "./node.ts";

/** An interval drawn as a bracket in its own lane. */
export interface Lane {
  readonly method: "linear" | "monte-carlo";
  readonly label: string;
  readonly interval: readonly [number, number];
  /** `null` where there is none to mark. */
  readonly estimate: number | null;
}

/** Height one lane takes. */
export const LANE = 34;

/** The middle of a text of about six pixels a letter, moved as little as keeps it between two edges. */
function within(middle: number, text: string, left: number, right: number): number {
  const half = 3 * text.length;
  return Math.min(right - half, Math.max(left + half, middle));
}

/** Brackets under each other from `y` on, with a strip from end to end that shows how far apart they lie. */
export function intervalLanes(lanes: readonly [Lane, Lane], x: Scale, y: number): SVGGElement {
  const [left, right] = x.range() as [number, number];
  const at = (i: number): number => y + LANE * i + 22;
  // Of a tail only what lies in the picture is drawn: an end outside it has no mark.
  const inside = (value: number): boolean => x(value) >= left - 0.5 && x(value) <= right + 0.5;
  const along = (value: number): number => Math.min(right, Math.max(left, x(value)));
  const gap = (end: 0 | 1): SVGPathElement | null => {
    const [a, b] = lanes.map((lane) => lane.interval[end]) as [number, number];
    return inside(a) && inside(b) ? svg("path", { class: "end-gap", d: `M${x(a)} ${at(0)}L${x(b)} ${at(1)}` }) : null;
  };
  return svg(
    "g",
    { class: "lanes" },
    gap(0),
    gap(1),
    lanes.map(({ method, label, interval, estimate }, i) => {
      const [low, high] = interval.map(along) as [number, number];
      const line = method === "linear" ? "linear-line" : "trials-rule";
      const ends = interval.filter(inside).map((value) => `M${x(value)} ${at(i) - 7}v14`);
      return svg(
        "g",
        {},
        svg("path", { class: line, d: `M${low} ${at(i)}H${high}` }),
        svg("path", { class: `${line} solid`, d: ends.join("") }),
        estimate === null || !inside(estimate)
          ? null
          : svg("circle", { class: `${line} estimate`, cx: x(estimate), cy: at(i), r: 4 }),
        svg(
          "text",
          {
            class: "lane-label",
            x: within((low + high) / 2, label, left, right),
            y: at(i) - 10,
            "text-anchor": "middle",
          },
          label,
        ),
      );
    }),
  );
}
