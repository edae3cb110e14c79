import { compareGenerators, type RunRecord } from "../../engine/index.ts";

/** A figure of a record that its repetition does not give. */
export interface Deviation {
  readonly place: string;
  readonly filed: string;
  readonly repeated: string;
}

/** Every place at which two documents differ, to the bit. */
export function deviations(filed: unknown, repeated: unknown, place = ""): Deviation[] {
  if (Object.is(filed, repeated)) return [];
  if (
    typeof filed === "object" &&
    typeof repeated === "object" &&
    filed !== null &&
    repeated !== null &&
    Array.isArray(filed) === Array.isArray(repeated)
  ) {
    const keys = new Set([...Object.keys(filed), ...Object.keys(repeated)]);
    return [...keys].flatMap((key) =>
      deviations(
        (filed as Record<string, unknown>)[key],
        (repeated as Record<string, unknown>)[key],
        place === "" ? key : `${place}.${key}`,
      ),
    );
  }
  return [{ place, filed: JSON.stringify(filed) ?? "nothing", repeated: JSON.stringify(repeated) ?? "nothing" }];
}

/**
 * Whether two records of one study agree as two runs with different draws would: the linear budget to 12 digits, the
 * Monte Carlo figures within their own standard errors.
 *
 * @returns what does not agree, as sentences
 */
export function disagreements(filed: RunRecord, repeated: RunRecord): string[] {
  const found: string[] = [];
  for (const [name, { linear }] of Object.entries(filed.measurands)) {
    const again = repeated.measurands[name]?.linear;
    if (again === undefined) {
      found.push(`the repetition has no measurand ${name}`);
      continue;
    }
    for (const figure of ["estimate", "standardUncertainty", "coverageFactor"] as const) {
      const scale = Math.max(Math.abs(linear[figure]), linear.standardUncertainty);
      // A derivative is good to 1e-9; what follows from it to as much.
      if (Math.abs(again[figure] - linear[figure]) > 1e-8 * scale)
        found.push(`${name}: ${figure} of the linear budget is ${linear[figure]}, repeated ${again[figure]}`);
    }
  }
  if (found.length > 0) return found;
  const { figures, limit } = compareGenerators(filed, repeated);
  return figures
    .filter(({ ratio }) => Math.abs(ratio) > limit)
    .map(
      ({ measurand, figure, first, second, ratio }) =>
        `${measurand}: ${figure} is ${first}, repeated ${second}, ${ratio.toFixed(1)} standard errors apart`,
    );
}
