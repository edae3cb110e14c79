import { line } from "d3";
import type { Numbers } from "../numbers.ts";
import { axisBelow, axisLeft } from "./axis.ts";
import { EDGE, plane, TICKS, TITLE } from "./plane.ts";
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

/** Room for labels at the right ends, and the least distance of two of them, in pixels. */
const [LABEL, APART] = [84, 13];

/** Several lines over one quantity. */
export function linesScene({ name, titles, lines, width, height, from }: LinesPicture, numbers: Numbers): Scene {
  const all = lines.flatMap(({ points }) => points);
  const room = lines.some(({ label }) => label !== null) ? LABEL : EDGE;
  const { x, y, left, right, bottom, whole } = plane(
    { along: all.map(([at]) => at), up: all.map(([, value]) => value), from, aside: 0.03 },
    { width, height, right: room },
    numbers,
  );
  const along = line<readonly [number, number]>(
    (point) => x(point[0]),
    (point) => y(point[1]),
  ).digits(1);
  return {
    class: "lines",
    width,
    height: whole,
    name,
    marks: [
      text("axis-title", 0, TITLE, titles[1]),
      axisLeft(y, left, right, TICKS, numbers),
      ...lines.flatMap(({ points, look, marked, apart }): Mark[] => [
        ...(apart === true ? [] : [path(look, along(points) ?? "")]),
        ...(marked ? points.map((point) => circle("observed", x(point[0]), y(point[1]), 3)) : []),
      ]),
      ...endLabels(lines, (value) => y(value)).map(({ label, at }) => text("line-label", right + 6, at + 4, label)),
      axisBelow(x, bottom, width - (room - EDGE), numbers),
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
