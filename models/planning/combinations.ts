import type { Choice } from "./changed.ts";
import type { Lever } from "./document.ts";

/** What steps cost together: as stated, or one each. */
export const costOf = (levers: readonly Lever[], choices: readonly Choice[]): number =>
  choices.reduce((sum, { lever, step }) => sum + (levers[lever]!.steps[step]!.cost ?? 1), 0);

/** Every combination of at most one step of each lever, none among them. */
export function combinationsOf(levers: readonly Lever[]): readonly (readonly Choice[])[] {
  let found: readonly (readonly Choice[])[] = [[]];
  levers.forEach(({ steps }, lever) => {
    found = found.flatMap((choices) => [choices, ...steps.map((_, step) => [...choices, { lever, step }])]);
  });
  return found;
}

/** Least gain over a cheaper combination that makes another worth a place on the frontier. */
const WORTH = 0.005;

/** Whether a combination gains enough over the one before it on the frontier. */
export const gains = (one: { readonly worst: number }, before: { readonly worst: number } | undefined): boolean =>
  before === undefined || one.worst < before.worst * (1 - WORTH);

/** Those that no cheaper one equals within half a percent, by rising cost. */
export function paretoOf<R extends { readonly cost: number; readonly worst: number }>(all: readonly R[]): readonly R[] {
  const found: R[] = [];
  for (const one of all.toSorted((a, b) => a.cost - b.cost || a.worst - b.worst))
    if (gains(one, found.at(-1))) found.push(one);
  return found;
}
