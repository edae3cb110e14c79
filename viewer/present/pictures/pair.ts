import type { PairRecord } from "../../../engine/index.ts";
import type { Numbers } from "../numbers.ts";
import { axisBelow, axisLeft, roomForTicks, scaleOver } from "./axis.ts";
import { circle, path, px, text, type Label, type Scene } from "./scene.ts";

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
  readonly titles: readonly [below: Label, left: Label];
}

/** k_p of a bivariate normal distribution: √χ²₂(p) = √(−2 ln(1 − p)) (JCGM 102:2011, 6.5.2). */
export const normalPairFactor = (p: number): number => Math.sqrt(-2 * Math.log(1 - p));

/** Variances and covariance of the i-th and j-th measurand. */
export const covarianceOf = (matrix: readonly (readonly number[])[], i: number, j: number): Ellipse["covariance"] => [
  matrix[i]![i]!,
  matrix[i]![j]!,
  matrix[j]![j]!,
];

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
export function pairScene({ name, pair, linear, monteCarlo, width, titles }: PairPicture, numbers: Numbers): Scene {
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
  const x = scaleOver(range(0), [roomForTicks(y, TICKS, numbers), width - 16]);
  const [left, right] = x.range() as [number, number];
  const inside = ([a, b]: readonly [number, number]): boolean =>
    x(a) >= left && x(a) <= right && y(b) >= TOP && y(b) <= bottom;
  const outline = (ellipse: Ellipse | null): string =>
    ellipse === null
      ? ""
      : `M${ellipsePoints(ellipse)
          .map(([a, b]) => `${px(x(a))} ${px(y(b))}`)
          .join("L")}Z`;
  // One path of squares that touch without a seam.
  const region = corners
    .map(([a, b]) => `M${px(x(a))} ${px(y(b))}H${px(x(a + cell[0]))}V${px(y(b + cell[1]))}H${px(x(a))}Z`)
    .join("");
  return {
    class: "pair",
    width,
    height: bottom + 46,
    name,
    marks: [
      text("axis-title", 0, HEAD, titles[1]),
      axisLeft(y, left, right, TICKS, numbers),
      path("trials-area", region),
      ...pair.scatter.filter(inside).map(([a, b]) => circle("trials-dot", x(a), y(b), 1.25)),
      path("trials-rule thin", outline(monteCarlo)),
      path("linear-line", outline(linear)),
      axisBelow(x, bottom, width, numbers),
      text("axis-title", (left + right) / 2, bottom + 38, titles[0], "middle"),
    ],
  };
}
