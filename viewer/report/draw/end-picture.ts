import { html, type Child, type Markup } from "../markup.ts";
import type { Numbers } from "../../present/numbers.ts";
import { axisBelow, hatching, picture, px, scaleOver } from "./axis.ts";

/** One end of the two intervals, to be drawn large. */
export interface EndPicture {
  readonly id: string;
  readonly name: string;
  readonly title: Child;
  /** Monte Carlo end less linear end. */
  readonly difference: number;
  readonly standardError: number | null;
  readonly tolerance: number;
  /** Half-width of the picture. */
  readonly reach: number;
  readonly linearEnd: string;
  readonly monteCarloEnd: string;
  readonly differenceText: Child;
  readonly axisTitle: Child;
}

const WIDTH = 322;
const HEIGHT = 142;
const BASE = 98;

/** Half-width that shows tolerance and differences of both ends at one scale. */
export const reachOf = (differences: readonly number[], tolerance: number): number =>
  Math.max(1.8 * tolerance, ...differences.map((difference) => 1.6 * Math.abs(difference))) || 1;

/** The linear end at zero with the tolerance hatched either side, and the Monte Carlo end with two standard errors. */
export function endPicture(
  { difference: d, standardError, tolerance: δ, reach, ...end }: EndPicture,
  numbers: Numbers,
): Markup {
  const x = scaleOver([-reach, reach], [22, WIDTH - 22]);
  const [zero, there] = [x(0), x(d)];
  const outward = d < 0 ? -1 : 1;
  // Near its edge of the picture a label turns inwards.
  const inward = Math.abs(d) > 0.55 * reach;
  const anchor = (direction: number): string => (direction > 0 ? "start" : "end");
  const whisker =
    standardError === null
      ? null
      : html`<path
          class="trials-line"
          d="M${px(x(d - 2 * standardError))} 56H${px(x(d + 2 * standardError))}M${px(x(d - 2 * standardError))} 52v8M${px(x(d + 2 * standardError))} 52v8"
        />`;
  const far = Math.abs(there - zero) > 96;
  return picture(
    WIDTH,
    HEIGHT,
    end.name,
    html`${hatching(end.id)}<text class="strong" x="8" y="12">${end.title}</text>
      <rect fill="url(#${end.id})" x="${px(x(-δ))}" y="42" width="${px(x(δ) - x(-δ))}" height="${BASE - 42}" /><path
        class="tolerance-edge"
        d="M${px(x(-δ))} 42V${BASE}M${px(x(δ))} 42V${BASE}"
      />
      <path class="linear-line" d="M${px(zero)} 22V${BASE}" /><text
        class="halo"
        x="${px(zero - 6 * outward)}"
        y="30"
        text-anchor="${anchor(-outward)}"
        >${end.linearEnd}</text
      >
      <path class="trials-line thick" d="M${px(there)} 34V${BASE}" /><text
        class="halo"
        x="${px(there + (inward ? -6 : 6) * outward)}"
        y="40"
        text-anchor="${anchor(inward ? -outward : outward)}"
        >${end.monteCarloEnd}</text
      >
      ${whisker}<path class="trials-line" d="M${px(zero)} 80H${px(there)}M${px(zero)} 76v8M${px(there)} 76v8" />
      <text
        class="halo strong"
        x="${px(far ? (zero + there) / 2 : zero - 7 * outward)}"
        y="${far ? 75 : 84}"
        text-anchor="${far ? "middle" : anchor(-outward)}"
        >${end.differenceText}</text
      >
      ${axisBelow(x, BASE, numbers, end.axisTitle, 5)}`,
    "half",
  );
}
