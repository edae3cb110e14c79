import type { ReportedRecord } from "../../engine/index.ts";
import type { CalibratedPoint } from "./calibrated-point.ts";

/**
 * Two points at one temperature. What they share leaves no trace in their difference, so its uncertainty is far smaller
 * than that of either: a rising and a falling run show the hysteresis, the ice point before and after a change of R_0,
 * exchanged places the difference between them, two baths what their surveys leave.
 */
export interface Repeat {
  readonly nominal: number;
  /** Numbers of the points. */
  readonly between: readonly [first: number, second: number];
  readonly kind: "directions" | "exchanged" | "baths" | "repeated";
  /** Error of the second less that of the first, °C. */
  readonly difference: number;
  /** Of the difference, by the covariance of the two errors. */
  readonly standardUncertainty: number;
  /** |difference| greater than twice its standard uncertainty (JCGM 100, 6.2: k = 2). */
  readonly differs: boolean;
}

/** The error of the second point less that of the first, free of what both share. */
export function differenceOf(
  first: CalibratedPoint,
  second: CalibratedPoint,
  { measurands, linear: { covariance } }: NonNullable<ReportedRecord["joint"]>,
): Pick<Repeat, "difference" | "standardUncertainty" | "differs"> {
  const [a, b] = [measurands.indexOf(first.measurand), measurands.indexOf(second.measurand)];
  const variance = covariance[a]![a]! + covariance[b]![b]! - 2 * covariance[a]![b]!;
  const standardUncertainty = Math.sqrt(Math.max(0, variance));
  const difference = second.error - first.error;
  return { difference, standardUncertainty, differs: Math.abs(difference) > 2 * standardUncertainty };
}

/** Every two neighbouring points at one nominal temperature. */
export function repeatsOf(points: readonly CalibratedPoint[], { joint }: ReportedRecord): readonly Repeat[] {
  if (joint === null) return [];
  return points.slice(1).flatMap((second, i): Repeat[] => {
    const first = points[i]!;
    if (first.nominal !== second.nominal) return [];
    return [
      {
        nominal: first.nominal,
        between: [first.number, second.number],
        kind:
          first.direction !== null && second.direction !== null && first.direction !== second.direction
            ? "directions"
            : first.exchanged !== second.exchanged
              ? "exchanged"
              : first.bath !== second.bath
                ? "baths"
                : "repeated",
        ...differenceOf(first, second, joint),
      },
    ];
  });
}
