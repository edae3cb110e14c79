import { line } from "d3";
import type { Numbers } from "../numbers.ts";
import { axisBelow, axisLeft, roomForTicks, scaleOver } from "./axis.ts";
import { circle, path, text, type Label, type Mark, type Scene } from "./scene.ts";

/** A line through points, each of them marked or none. */
export interface DrawnLine {
  /** Stands at its right end; `null` where the caption names it. */
  readonly label: Label | null;
  readonly points: readonly (readonly [x: number, y: number])[];
  /** How it looks: `trials-line`, `linear-line`, `limit`… */
  readonly look: string;
  readonly marked: boolean;
  /** Its points alone, without a line between them. */
  readonly apart?: true;
}

export interface LinesPicture {
  readonly name: string;
  readonly titles: readonly [below: Label, left: Label];
  readonly lines: readonly DrawnLine[];
  readonly width: number;
  readonly height: number;
  /** Least value that must show, such as 0. */
  readonly from?: number;
}

const HEAD = 12;
const TOP = HEAD + 18;
const TICKS = 5;
/** Room for labels at the right ends, and the least distance of two of them, in pixels. */
const [LABEL, APART] = [84, 13];

/** Several lines over one quantity. */
export function linesScene({ name, titles, lines, width, height, from }: LinesPicture, numbers: Numbers): Scene {
  const all = lines.flatMap(({ points }) => points);
  const [xs, ys] = [all.map(([x]) => x), all.map(([, y]) => y)];
  const bottom = TOP + height;
  const [least, most] = [Math.min(...ys, from ?? Infinity), Math.max(...ys)];
  const margin = 0.06 * (most - least) || Math.abs(most) || 1;
  const y = scaleOver([from === undefined ? least - margin : least, most + margin], [bottom, TOP]);
  const [first, last] = [Math.min(...xs), Math.max(...xs)];
  const aside = 0.03 * (last - first) || Math.abs(first) || 1;
  const room = lines.some(({ label }) => label !== null) ? LABEL : 16;
  const x = scaleOver([first - aside, last + aside], [roomForTicks(y, TICKS, numbers), width - room]);
  const [left, right] = x.range() as [number, number];
  const along = line<readonly [number, number]>(
    (point) => x(point[0]),
    (point) => y(point[1]),
  ).digits(1);
  return {
    class: "lines",
    width,
    height: bottom + 46,
    name,
    marks: [
      text("axis-title", 0, HEAD, titles[1]),
      axisLeft(y, left, right, TICKS, numbers),
      ...lines.flatMap(({ points, look, marked, apart }): Mark[] => [
        ...(apart === true ? [] : [path(look, along(points) ?? "")]),
        ...(marked ? points.map((point) => circle("observed", x(point[0]), y(point[1]), 3)) : []),
      ]),
      ...endLabels(lines, (value) => y(value)).map(({ label, at }) => text("line-label", right + 6, at + 4, label)),
      axisBelow(x, bottom, width - (room - 16), numbers),
      text("axis-title", (left + right) / 2, bottom + 38, titles[0], "middle"),
    ],
  };
}

/** Labels at the height of their lines' last points, moved down where two would lie over each other. */
function endLabels(
  lines: readonly DrawnLine[],
  y: (value: number) => number,
): readonly { readonly label: Label; readonly at: number }[] {
  const wanted = lines
    .flatMap(({ label, points }) =>
      label === null || points.length === 0 ? [] : [{ label, at: y(points.at(-1)![1]) }],
    )
    .toSorted((a, b) => a.at - b.at);
  let free = -Infinity;
  return wanted.map(({ label, at }) => {
    const placed = Math.max(at, free);
    free = placed + APART;
    return { label, at: placed };
  });
}
