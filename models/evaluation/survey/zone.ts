import { refuse } from "../../../engine/index.ts";
import type { SurveyDescription } from "./description.ts";

/** Temperature at one position against the reference position. */
export interface ZonePoint {
  readonly position: string;
  /** mm below the surface. */
  readonly depth: number;
  /** mm from the axis. */
  readonly radius: number;
  readonly direction: string | null;
  /** t(position) − t(reference position), K. */
  readonly difference: number;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
}

export type ZoneAxis = "axial" | "radial";

/** Positions that differ from the reference position along one axis only, in order; the reference itself among them. */
export interface ZoneLine {
  readonly axis: ZoneAxis;
  readonly direction: string | null;
  readonly points: readonly ZonePoint[];
}

/** Limits of a difference over a zone. */
export interface ZoneLimits {
  readonly lowest: number;
  readonly highest: number;
  /** Largest u among the points the limits rest on, K. */
  readonly noise: number;
}

/** Positions count as equally deep or far if they differ by no more than this, mm. */
const SAME = 0.5;

/** Sorts the map into lines: one vertical, and one horizontal for each direction. */
export function zoneLines(points: readonly ZonePoint[], reference: ZonePoint): readonly ZoneLine[] {
  const vertical = points.filter((point) => Math.abs(point.radius - reference.radius) <= SAME && point !== reference);
  const sameDirection = (point: ZonePoint): boolean =>
    reference.radius <= SAME || point.direction === reference.direction;
  const axial = vertical.filter((point) => Math.abs(point.depth - reference.depth) > SAME && sameDirection(point));
  const radial = points.filter(
    (point) =>
      Math.abs(point.depth - reference.depth) <= SAME &&
      Math.abs(point.radius - reference.radius) > SAME &&
      point !== reference,
  );
  const lines: ZoneLine[] = [];
  if (axial.length > 0) {
    lines.push({ axis: "axial", direction: null, points: [...axial, reference].sort((a, b) => a.depth - b.depth) });
  }
  for (const direction of new Set(radial.map((point) => point.direction))) {
    const along = radial.filter((point) => point.direction === direction);
    lines.push({ axis: "radial", direction, points: [...along, reference].sort((a, b) => a.radius - b.radius) });
  }
  return lines;
}

/** Depth or radius of a point, mm. */
export const placeAlong =
  (axis: ZoneAxis) =>
  (point: ZonePoint): number =>
    axis === "axial" ? point.depth : point.radius;

/**
 * How far a survey reaches along one axis, mm. A radius counts if two directions reach it: a zone is round, and one
 * direction gives no information about the other side.
 */
export function reachOf(along: readonly ZoneLine[], axis: ZoneAxis): readonly [number, number] {
  const at = placeAlong(axis);
  const least = Math.min(...along.flatMap(({ points }) => points.map(at)));
  const furthest = along.map(({ points }) => Math.max(...points.map(at))).toSorted((a, b) => b - a);
  return [least, axis === "axial" ? furthest[0]! : (furthest[1] ?? least)];
}

/**
 * Lowest and highest difference along one axis between two limits, straight lines between neighbouring positions: the
 * extremes then lie at positions or at the limits themselves.
 *
 * @throws {InputError} limits that no surveyed position reaches, or a radius that one direction alone does
 */
export function zoneLimits(lines: readonly ZoneLine[], axis: ZoneAxis, from: number, to: number): ZoneLimits | null {
  const along = lines.filter((line) => line.axis === axis);
  if (along.length === 0) return null;
  const at = placeAlong(axis);
  const reach = reachOf(along, axis);
  if (from < reach[0] - SAME || to > reach[1] + SAME) {
    refuse(
      axis === "axial" ? "zone.depth" : "zone.radius",
      axis === "axial" ? [from, to] : to,
      `no more than was surveyed${axis === "axial" ? ": depths" : ", in two directions at least: radii"} from ${reach[0]} mm to ${reach[1]} mm`,
    );
  }
  let lowest = 0;
  let highest = 0;
  let noise = 0;
  for (const { points } of along) {
    const values = points.filter((point) => at(point) >= from - SAME && at(point) <= to + SAME);
    const differences = values.map(({ difference }) => difference);
    noise = Math.max(noise, ...values.map(({ standardUncertainty }) => standardUncertainty));
    for (const limit of [from, to]) {
      const next = points.findIndex((point) => at(point) > limit + SAME);
      if (next <= 0) continue;
      const left = points[next - 1]!;
      const right = points[next]!;
      if (at(left) >= limit - SAME) continue;
      const weight = (limit - at(left)) / (at(right) - at(left));
      differences.push(left.difference + weight * (right.difference - left.difference));
      noise = Math.max(noise, (1 - weight) * left.standardUncertainty + weight * right.standardUncertainty);
    }
    lowest = Math.min(lowest, ...differences);
    highest = Math.max(highest, ...differences);
  }
  return { lowest, highest, noise };
}

/** Limits as an input quantity: where its middle is, how far it reaches, and which distribution that makes. */
export interface ZoneQuantity {
  readonly estimate: number;
  /** Widened so that its standard uncertainty holds that of the survey too. */
  readonly halfWidth: number;
  /** Of the differences found, as if they were known exactly. */
  readonly ofDifferences: number;
  readonly distribution: "rectangular" | "triangular";
  readonly because: string;
}

/**
 * - `reference-fixed`: the reference stands at its position, a probe anywhere: within ± max|g|.
 * - `midpoint`: as before, corrected by the middle of the limits: within ± half the range about it.
 * - `anywhere`: either may stand anywhere: the difference of two rectangulars is triangular over ± the range.
 *
 * The differences are themselves known with a standard uncertainty u at most. It is added in quadrature to that of the
 * distribution, a/√3 or a/√6, so that the half-width becomes √(a² + 3u²) or √(a² + 6u²) (JCGM 100, 4.3.7 and 5.1.2).
 */
export function zoneQuantity(
  { lowest, highest, noise }: ZoneLimits,
  arrangement: SurveyDescription["arrangement"],
): ZoneQuantity {
  const widths = (ofDifferences: number, divisor: number) => ({
    ofDifferences,
    halfWidth: Math.sqrt(ofDifferences * ofDifferences + divisor * noise * noise),
  });
  switch (arrangement) {
    case "reference-fixed":
      return {
        estimate: 0,
        ...widths(Math.max(Math.abs(lowest), Math.abs(highest)), 3),
        distribution: "rectangular",
        because:
          "the reference stands at the reference position, a probe anywhere in the zone: no further off than the largest difference",
      };
    case "midpoint":
      return {
        estimate: (lowest + highest) / 2,
        ...widths((highest - lowest) / 2, 3),
        distribution: "rectangular",
        because: "corrected by the middle of the differences in the zone; half their range remains",
      };
    case "anywhere":
      return {
        estimate: 0,
        ...widths(highest - lowest, 6),
        distribution: "triangular",
        because:
          "either thermometer may stand anywhere in the zone: the difference of two equal rectangulars is triangular over the whole range",
      };
  }
}
