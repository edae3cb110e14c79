import { refuse } from "../../../engine/index.ts";
import { evaluateTypeA, type TypeAEvaluation } from "../readings/type-a.ts";
import { between, firstAtOrAfter, type ThermometerLog } from "../log/thermometer-log.ts";
import { straightLine } from "./straight-line.ts";

/** One thermometer minus another at the same moments: what both see of the bath has cancelled. */
export interface SynchronousDifference {
  readonly first: string;
  readonly second: string;
  readonly from: number;
  readonly to: number;
  /** Readings of the first for which the second was known. */
  readonly samples: number;
  /** How many of these rest on an interpolation between two readings of the second. */
  readonly interpolated: number;
  /** Mean difference first − second with its type A uncertainty, K. */
  readonly typeA: TypeAEvaluation;
  /** What the difference itself moved by, from its straight line over the time, K: far from 0 while still settling. */
  readonly movement: number;
  /** Standard uncertainty of the movement, correlation accounted for, K. */
  readonly movementStandardUncertainty: number;
}

/**
 * Synchronous differences over a stretch of time. If the second thermometer was not read at the same moment, it is
 * interpolated linearly between its neighbours, never across a gap.
 *
 * @param maximumGap longest distance between neighbours to interpolate over, s
 * @throws {InputError} fewer than three common moments
 */
export function synchronousDifference(
  first: ThermometerLog,
  second: ThermometerLog,
  from: number,
  to: number,
  maximumGap: number,
): SynchronousDifference {
  const part = between(first, from, to);
  const times: number[] = [];
  const differences: number[] = [];
  let interpolated = 0;
  for (let i = 0; i < part.times.length; i++) {
    const time = part.times[i]!;
    const after = firstAtOrAfter(second.times, time);
    if (after === second.times.length) break;
    if (second.times[after] === time) {
      times.push(time);
      differences.push(part.values[i]! - second.values[after]!);
      continue;
    }
    const start = second.times[after - 1];
    const end = second.times[after]!;
    // Neighbours outside the stretch belong to another step, when the thermometer may have stood elsewhere.
    if (start === undefined || start < from || end > to || end - start > maximumGap) continue;
    const weight = (time - start) / (end - start);
    times.push(time);
    differences.push(part.values[i]! - (second.values[after - 1]! * (1 - weight) + second.values[after]! * weight));
    interpolated++;
  }
  if (differences.length < 3) {
    refuse(
      `log.${first.thermometer}`,
      `${differences.length} common moments with ${second.thermometer}`,
      "at least 3 in every step",
    );
  }
  const typeA = evaluateTypeA(differences);
  const line = straightLine(times, differences);
  const span = times.at(-1)! - times[0]!;
  return {
    first: first.thermometer,
    second: second.thermometer,
    from: times[0]!,
    to: times.at(-1)!,
    samples: differences.length,
    interpolated,
    typeA,
    movement: line.slope * span,
    movementStandardUncertainty: line.slopeStandardUncertainty * span * Math.sqrt(typeA.count / typeA.effectiveCount),
  };
}
