import type { PairRecord } from "../../../engine/index.ts";
import { axisBelow, axisLeft, roomForTicks, scaleOver } from "./axis.ts";
import { svg, type Child } from "./node.ts";

/** A coverage ellipse: (η − centre)ᵀ U⁻¹ (η − centre) = factor². */
export interface Ellipse {
  readonly centre: readonly [number, number];
  /** Variances and covariance of the pair. */
  readonly covariance: readonly [varianceFirst: number, covariance: number, varianceSecond: number];
  readonly factor: number;
}

export interface PairPicture {
  readonly name: string;
  readonly pair: PairRecord;
  readonly linear: Ellipse | null;
  readonly monteCarlo: Ellipse | null;
  readonly width: number;
  readonly titles: readonly [below: Child, left: Child];
}

const POINTS = 96;
const HEAD = 12;
const TOP = HEAD + 18;
const TICKS = 5;

/** Points of an ellipse by the triangular root of its covariance: centre + factor·L·(cos φ, sin φ). */
export function ellipsePoints({
  centre,
  covariance: [v1, c, v2],
  factor,
}: Ellipse): readonly (readonly [number, number])[] {
  const a = Math.sqrt(v1);
  const b = a > 0 ? c / a : 0;
  const d = Math.sqrt(Math.max(0, v2 - b * b));
  return Array.from({ length: POINTS }, (_, i) => {
    const φ = (2 * Math.PI * i) / POINTS;
    return [centre[0] + factor * a * Math.cos(φ), centre[1] + factor * (b * Math.cos(φ) + d * Math.sin(φ))] as const;
  });
}

/**
 * Two measurands at once: cells of the smallest region filled, some trials as points, the coverage ellipse of the trials
 * solid and that of the linear budget dashed.
 */
export function pairPicture({ name, pair, linear, monteCarlo, width, titles }: PairPicture): SVGSVGElement {
  const { low, width: cell, cells, counts, least } = pair.grid;
  const outlines = [linear, monteCarlo].flatMap((ellipse) => (ellipse === null ? [] : ellipsePoints(ellipse)));
  const inRegion = counts.flatMap((count, i) => (count >= least && count > 0 ? [i] : []));
  const corners = inRegion.map(
    (i) => [low[0] + (i % cells) * cell[0], low[1] + Math.floor(i / cells) * cell[1]] as const,
  );
  const all = [...outlines, ...corners, ...corners.map(([a, b]) => [a + cell[0], b + cell[1]] as const)];
  const range = (k: 0 | 1): readonly [number, number] => {
    const values = all.map((point) => point[k]);
    const [from, to] = [Math.min(...values), Math.max(...values)];
    const margin = 0.06 * (to - from) || cell[k];
    return [from - margin, to + margin];
  };
  const height = Math.round(Math.min(420, Math.max(220, 0.75 * width)));
  const bottom = TOP + height;
  const y = scaleOver(range(1), [bottom, TOP]);
  const x = scaleOver(range(0), [roomForTicks(y, TICKS), width - 16]);
  const total = bottom + 46;
  const [left, right] = x.range() as [number, number];
  const inside = ([a, b]: readonly [number, number]): boolean =>
    x(a) >= left && x(a) <= right && y(b) >= TOP && y(b) <= bottom;
  const outline = (ellipse: Ellipse | null): string =>
    ellipse === null
      ? ""
      : `M${ellipsePoints(ellipse)
          .map(([a, b]) => `${x(a).toFixed(1)} ${y(b).toFixed(1)}`)
          .join("L")}Z`;
  // One path of squares that touch without a seam.
  const region = corners
    .map(
      ([a, b]) =>
        `M${x(a).toFixed(1)} ${y(b).toFixed(1)}H${x(a + cell[0]).toFixed(1)}V${y(b + cell[1]).toFixed(1)}H${x(a).toFixed(1)}Z`,
    )
    .join("");
  return svg(
    "svg",
    { class: "pair", width, height: total, viewBox: `0 0 ${width} ${total}`, role: "img", "aria-label": name },
    svg("text", { class: "axis-title", x: 0, y: HEAD }, titles[1]),
    axisLeft(y, left, right, TICKS),
    svg("path", { class: "trials-area", d: region }),
    pair.scatter
      .filter(inside)
      .map(([a, b]) => svg("circle", { class: "trials-dot", cx: x(a).toFixed(1), cy: y(b).toFixed(1), r: 1.25 })),
    svg("path", { class: "trials-rule thin", d: outline(monteCarlo) }),
    svg("path", { class: "linear-line", d: outline(linear) }),
    axisBelow(x, bottom, width),
    svg("text", { class: "axis-title", x: (left + right) / 2, y: bottom + 38, "text-anchor": "middle" }, titles[0]),
  );
}
