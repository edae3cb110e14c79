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

const ROW = 40;
const TOP = 24;

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
 * cause is a bar that starts where the bar above it stopped.
 */
export function movesScene(
  { name, moves, tolerance, range, width, text: words, axisLabel }: MovesPicture,
  numbers?: Numbers,
): Scene {
  const x = scaleOver(range, [8, width - 8]);
  const base = TOP + ROW * moves.length + 10;
  let at = 0;
  const bars = moves.flatMap(({ label, by }, i): Mark[] => {
    const [start, stop] = [x(at), x(at + by)];
    at += by;
    const y = TOP + ROW * i + 20;
    return [
      text("halo", 8, y - 5, `${label}  ${words(by)}`),
      rect("move", Math.min(start, stop), y, Math.max(1, Math.abs(stop - start)), 13),
      path("end-gap", `M${px(stop)} ${y + 13}V${i === moves.length - 1 ? base : y + ROW}`),
    ];
  });
  return {
    class: "moves",
    width,
    height: base + 44,
    name,
    marks: [
      rect("tolerance", x(-tolerance), TOP, Math.max(0, x(tolerance) - x(-tolerance)), base - TOP),
      path("linear-line", `M${px(x(0))} ${TOP - 4}V${base}`),
      path("trials-rule", `M${px(x(at))} ${base - 16}V${base}`),
      ...bars,
      axisBelow(x, base, width, numbers),
      text("axis-title", width / 2, base + 36, axisLabel, "middle"),
    ],
  };
}
