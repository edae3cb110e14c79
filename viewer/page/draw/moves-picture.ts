import { axisBelow, scaleOver } from "./axis.ts";
import { svg } from "./node.ts";

/** One step from the linear end to the Monte Carlo end. */
export interface Move {
  readonly label: string;
  readonly by: number;
}

/** The steps of one end, to be drawn one under the other. */
export interface MovesPicture {
  readonly name: string;
  readonly moves: readonly Move[];
  readonly tolerance: number;
  readonly from: number;
  readonly to: number;
  readonly width: number;
  readonly text: (value: number) => string;
  readonly axisLabel: string;
}

const ROW = 40;
const TOP = 24;

/** Values that hold every step of several ends and their tolerance. */
export function movesRange(ends: readonly (readonly Move[])[], tolerance: number): readonly [number, number] {
  const places = ends.flatMap((moves) =>
    moves.map((_, i) => moves.slice(0, i + 1).reduce((sum, { by }) => sum + by, 0)),
  );
  const [least, greatest] = [Math.min(-tolerance, 0, ...places), Math.max(tolerance, 0, ...places)];
  const margin = 0.12 * (greatest - least) || 1;
  return [least - margin, greatest + margin];
}

/**
 * How the causes carry an end from where the budget has it (dashed, at zero, with ± δ hatched) to where the trials have it
 * (solid): each cause is a bar that starts where the one above it stopped.
 */
export function movesPicture({
  name,
  moves,
  tolerance,
  from,
  to,
  width,
  text,
  axisLabel,
}: MovesPicture): SVGSVGElement {
  const x = scaleOver([from, to], [8, width - 8]);
  const base = TOP + ROW * moves.length + 10;
  const zero = x(0);
  let at = 0;
  const bars = moves.map(({ label, by }, i) => {
    const [start, end] = [x(at), x(at + by)];
    at += by;
    const y = TOP + ROW * i + 20;
    return [
      svg("text", { class: "halo", x: 8, y: y - 5 }, `${label}  ${text(by)}`),
      svg("rect", { class: "move", x: Math.min(start, end), y, width: Math.max(1, Math.abs(end - start)), height: 13 }),
      svg("path", { class: "end-gap", d: `M${end} ${y + 13}V${i === moves.length - 1 ? base : y + ROW}` }),
    ];
  });
  const there = x(at);
  const height = base + 44;
  return svg(
    "svg",
    { class: "moves", width, height, viewBox: `0 0 ${width} ${height}`, role: "img", "aria-label": name },
    svg("rect", {
      class: "tolerance",
      x: x(-tolerance),
      y: TOP,
      width: Math.max(0, x(tolerance) - x(-tolerance)),
      height: base - TOP,
    }),
    svg("path", { class: "linear-line", d: `M${zero} ${TOP - 4}V${base}` }),
    svg("path", { class: "trials-rule", d: `M${there} ${base - 16}V${base}` }),
    bars,
    axisBelow(x, base, width),
    svg("text", { class: "axis-title", x: width / 2, y: base + 36, "text-anchor": "middle" }, axisLabel),
  );
}
