import type { Numbers } from "../numbers.ts";
import { axisBelow, scaleOver } from "./axis.ts";
import { path, px, rect, text, type Label, type Mark, type Scene } from "./scene.ts";

/** One step from the linear endpoint to the Monte Carlo endpoint. */
export interface Move {
  readonly label: string;
  readonly by: number;
}

/** The steps of one endpoint, drawn one below another. */
export interface MovesPicture {
  readonly name: string;
  readonly moves: readonly Move[];
  readonly tolerance: number;
  /** The values shown. */
  readonly range: readonly [number, number];
  readonly width: number;
  readonly text: (value: number) => string;
  readonly axisLabel: Label;
}

const ROW = 26;
const TOP = 14;
const BAR = 13;
/** Width of the words beside the bars, as a part of the picture: they never lie over one. */
const WORDS = 0.42;
/** About the width of a letter. */
const LETTER = 5.9;

/** Values that hold every step of both endpoints and their tolerance, so that both pictures have one scale. */
export function movesRange(both: readonly (readonly Move[])[], tolerance: number): readonly [number, number] {
  const places = both.flatMap((moves) =>
    moves.map((_, i) => moves.slice(0, i + 1).reduce((sum, { by }) => sum + by, 0)),
  );
  const [least, greatest] = [Math.min(-tolerance, 0, ...places), Math.max(tolerance, 0, ...places)];
  const margin = 0.12 * (greatest - least) || 1;
  return [least - margin, greatest + margin];
}

/**
 * How the causes move an endpoint from the budget's (dashed, at zero, ± δ hatched) to that of the trials (solid): each
 * cause is a bar that starts where the bar above it stopped, its words and figure to the left.
 */
export function movesScene(
  { name, moves, tolerance, range, width, text: words, axisLabel }: MovesPicture,
  numbers: Numbers,
): Scene {
  const left = Math.round(WORDS * width);
  const x = scaleOver(range, [left, width - 24]);
  let at = 0;
  let y = TOP;
  let above = TOP;
  const bars = moves.map(({ label, by }, i): Mark[] => {
    const lines = inLines(label, left - 14 - LETTER * (words(by).length + 2));
    const row = Math.max(ROW, 14 * lines.length + 8);
    const middle = y + row / 2;
    y += row;
    const [start, stop] = [x(at), x(at + by)];
    const before = above;
    above = middle + BAR / 2;
    at += by;
    return [
      ...lines.map((line, j) => text("row-label", 4, middle + 4 + 14 * (j - (lines.length - 1) / 2), line)),
      text("row-label", left - 10, middle + 4, words(by), "end"),
      rect("move", Math.min(start, stop), middle - BAR / 2, Math.max(1, Math.abs(stop - start)), BAR),
      // From the bar above to this one, and from the last to the axis.
      ...(i === 0 ? [] : [path("end-gap", `M${px(start)} ${px(before)}V${px(middle - BAR / 2)}`)]),
      ...(i === moves.length - 1 ? [path("end-gap", `M${px(stop)} ${px(middle + BAR / 2)}V${px(y + 6)}`)] : []),
    ];
  });
  const base = y + 6;
  return {
    class: "moves",
    width,
    height: base + 44,
    name,
    marks: [
      rect("tolerance", x(-tolerance), TOP, Math.max(0, x(tolerance) - x(-tolerance)), base - TOP),
      path("linear-line", `M${px(x(0))} ${TOP - 4}V${base}`),
      path("trials-rule", `M${px(x(at))} ${base - 16}V${base}`),
      ...bars.flat(),
      axisBelow(x, base, width, numbers),
      text("axis-title", (left + width - 24) / 2, base + 36, axisLabel, "middle"),
    ],
  };
}

/** Words in lines of about a width. */
function inLines(words: string, width: number): string[] {
  const lines: string[] = [];
  for (const word of words.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && LETTER * (last.length + 1 + word.length) <= width)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
