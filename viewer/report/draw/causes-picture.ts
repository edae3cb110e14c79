import type { Interval } from "../../../engine/index.ts";
import { html, type Child, type Markup } from "../markup.ts";
import type { Numbers } from "../../present/numbers.ts";
import { axisBelow, hatching, picture, px, scaleOver, WIDE } from "./axis.ts";

/** A cause and what it moves each end by, or the difference in all. */
export interface CauseBar {
  readonly label: string;
  readonly moves: Interval;
  readonly sum: boolean;
}

const LABELS = 178;
const GAP = 26;
const ROW = 24;
const TOP = 24;
const HALF = (WIDE - LABELS - GAP) / 2;

/** Two columns of bars, one an end: what each cause moves it by, and the sum; the tolerance hatched. */
export function causesPicture(
  id: string,
  name: string,
  bars: readonly CauseBar[],
  tolerance: number,
  titles: readonly [Child, Child],
  axisTitle: Child,
  numbers: Numbers,
): Markup {
  const reach =
    Math.max(1.25 * tolerance, ...bars.flatMap(({ moves }) => moves.map((move) => 1.08 * Math.abs(move)))) || 1;
  const base = TOP + bars.length * ROW + 4;
  const column = (which: 0 | 1): Markup => {
    const left = LABELS + which * (HALF + GAP);
    const x = scaleOver([-reach, reach], [left + 16, left + HALF - 16]);
    return html`<text class="strong" x="${px(x(0))}" y="12" text-anchor="middle">${titles[which]}</text>
      <rect
        fill="url(#${id})"
        x="${px(x(-tolerance))}"
        y="${TOP}"
        width="${px(x(tolerance) - x(-tolerance))}"
        height="${base - TOP}"
      /><path class="tolerance-edge" d="M${px(x(-tolerance))} ${TOP}V${base}M${px(x(tolerance))} ${TOP}V${base}" />
      ${bars.map(({ moves, sum }, i) => {
        const move = moves[which];
        return html`<rect
          class="${sum ? "bar sum" : "bar"}"
          x="${px(Math.min(x(0), x(move)))}"
          y="${TOP + i * ROW + 6}"
          width="${px(Math.max(0.6, Math.abs(x(move) - x(0))))}"
          height="${ROW - 11}"
        />`;
      })}<path class="axis-line" d="M${px(x(0))} ${TOP}V${base}" />${axisBelow(x, base, numbers, axisTitle, 4)}`;
  };
  return picture(
    WIDE,
    base + 38,
    name,
    html`${hatching(id)}${bars.map(({ label, sum }, i) => html`<text class="${sum ? "strong" : ""}" x="${LABELS - 8}" y="${TOP + i * ROW + ROW / 2 + 4}" text-anchor="end">${label}</text>`)}${column(0)}${column(1)}`,
  );
}
