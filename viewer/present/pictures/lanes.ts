import type { Scale } from "./axis.ts";
import { runsOf } from "./label.ts";
import { circle, group, path, px, text, type Label, type Mark } from "./scene.ts";

/** An interval drawn as a bracket in its own lane. */
export interface Lane {
  readonly method: "linear" | "monte-carlo";
  readonly label: Label;
  readonly interval: readonly [number, number];
  /** `null` if there is none to mark. */
  readonly estimate: number | null;
}

/** Height of one lane. */
export const LANE = 34;

const lengthOf = (label: Label): number =>
  runsOf(label).reduce((sum, run) => sum + ("words" in run ? run.words : run.symbol + run.after).length, 0);

/** The middle of a text of about six pixels a letter, moved as little as keeps it between two edges. */
function within(middle: number, label: Label, left: number, right: number): number {
  const half = 3 * lengthOf(label);
  return Math.min(right - half, Math.max(left + half, middle));
}

/**
 * Brackets one below another from `y` on, with a line between their endpoints that shows how far apart they are.
 *
 * @param differences texts beside the two lines, where the picture leaves room outside the intervals
 */
export function lanesMark(
  lanes: readonly [Lane, Lane],
  x: Scale,
  y: number,
  differences: readonly [Label, Label] | null = null,
): Mark {
  const [left, right] = x.range() as [number, number];
  const at = (i: number): number => y + LANE * i + 22;
  // A part of the values may be shown: an endpoint outside it has no mark.
  const inside = (value: number): boolean => x(value) >= left - 0.5 && x(value) <= right + 0.5;
  const along = (value: number): number => Math.min(right, Math.max(left, x(value)));
  const gap = (which: 0 | 1): Mark[] => {
    const [a, b] = lanes.map(({ interval }) => interval[which]) as [number, number];
    if (!inside(a) || !inside(b)) return [];
    const line = path("end-gap", `M${px(x(a))} ${at(0)}L${px(x(b))} ${at(1)}`);
    if (differences === null) return [line];
    const outer = which === 0 ? Math.min(x(a), x(b)) - 7 : Math.max(x(a), x(b)) + 7;
    return [line, text("", outer, (at(0) + at(1)) / 2 + 4, differences[which], which === 0 ? "end" : "start")];
  };
  return group("lanes", [
    ...gap(0),
    ...gap(1),
    ...lanes.map(({ method, label, interval, estimate }, i) => {
      const [low, high] = interval.map(along) as [number, number];
      const line = method === "linear" ? "linear-line" : "trials-rule";
      const ends = interval.filter(inside).map((value) => `M${px(x(value))} ${at(i) - 7}v14`);
      return group("", [
        path(line, `M${px(low)} ${at(i)}H${px(high)}`),
        path(`${line} solid`, ends.join("")),
        ...(estimate === null || !inside(estimate) ? [] : [circle(`${line} estimate`, x(estimate), at(i), 4)]),
        text("lane-label", within((low + high) / 2, label, left, right), at(i) - 10, label, "middle"),
      ]);
    }),
  ]);
}
