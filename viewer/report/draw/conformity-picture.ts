import type { ConformityRecord } from "../../../engine/index.ts";
import { html, type Child, type Markup } from "../markup.ts";
import type { Numbers } from "../../present/numbers.ts";
import type { Readable } from "../../present/readable.ts";
import { axisBelow, picture, px, scaleOver, WIDE } from "./axis.ts";
import { binsWithin, histogramPath } from "./density-picture.ts";

const BASE = 150;
const TOP = 22;

/** Density of the trials, dark where it lies outside the tolerance, with the limits of tolerance and of acceptance. */
export function conformityPicture(
  measurand: Readable,
  { tolerance, monteCarlo }: ConformityRecord,
  texts: { readonly name: string; readonly axisTitle: Child },
  numbers: Numbers,
): Markup {
  const [low, high] = measurand.monteCarlo.intervals.symmetric;
  const limits = [
    tolerance.lower,
    tolerance.upper,
    monteCarlo.acceptance?.lower ?? null,
    monteCarlo.acceptance?.upper ?? null,
  ].filter((limit) => limit !== null);
  const from = Math.min(low, ...limits);
  const to = Math.max(high, ...limits);
  const margin = 0.15 * (to - from) || 1;
  const range = [from - margin, to + margin] as const;
  const x = scaleOver(range, [10, WIDE - 10]);
  const { bins } = binsWithin(measurand, range);
  const y = scaleOver([0, Math.max(...bins.map(({ density }) => density)) || 1], [BASE, TOP + 6]);
  const below = bins.filter((bin) => tolerance.lower !== null && bin.to <= tolerance.lower);
  const above = bins.filter((bin) => tolerance.upper !== null && bin.from >= tolerance.upper);
  const limit = (value: number | null, className: string, label: Child): Child =>
    value === null
      ? null
      : html`<path class="${className}" d="M${px(x(value))} ${TOP - 4}V${BASE}" /><text
            x="${px(x(value))}"
            y="12"
            text-anchor="middle"
            >${label}</text
          >`;
  const { acceptance } = monteCarlo;
  const apart = (a: number | null | undefined, t: number | null): number | null =>
    a === null || a === undefined || a === t ? null : a;
  return picture(
    WIDE,
    BASE + 40,
    texts.name,
    html`<path
        class="trials-area"
        d="${histogramPath(bins, x, y)}Z"
      />${[below, above].map((part) => (part.length === 0 ? null : html`<path class="outside" d="${histogramPath(part, x, y)}Z" />`))}<path
        class="trials-line"
        d="${histogramPath(bins, x, y)}"
      />
      ${limit(tolerance.lower, "trials-line thick", html`T<tspan dy="0.28em" font-size="75%">L</tspan>`)}${limit(tolerance.upper, "trials-line thick", html`T<tspan dy="0.28em" font-size="75%">U</tspan>`)}
      ${limit(apart(acceptance?.lower, tolerance.lower), "linear-line", html`A<tspan dy="0.28em" font-size="75%">L</tspan>`)}${limit(apart(acceptance?.upper, tolerance.upper), "linear-line", html`A<tspan dy="0.28em" font-size="75%">U</tspan>`)}
      <circle
        class="mark"
        cx="${px(x(monteCarlo.estimate))}"
        cy="${BASE}"
        r="3.6"
      />${axisBelow(x, BASE, numbers, texts.axisTitle)}`,
  );
}
