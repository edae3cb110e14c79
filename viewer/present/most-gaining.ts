import type { Plan } from "../../models/index.ts";

/** Most inputs whose halving is shown. */
const MOST_INPUTS = 6;

/** The inputs whose halving gains most anywhere, the greatest gain first. */
export function mostGaining({ points }: Plan): readonly string[] {
  const most = new Map<string, number>();
  for (const { halvings } of points)
    for (const { input, gain } of halvings) most.set(input, Math.max(gain, most.get(input) ?? 0));
  return [...most]
    .toSorted(([, a], [, b]) => b - a)
    .slice(0, MOST_INPUTS)
    .map(([input]) => input);
}
