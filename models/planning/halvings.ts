import type { Prepared } from "../../engine/index.ts";
import { predictedOf } from "./predict.ts";

/** What the claim would gain if one input were half as uncertain. */
export interface Halving {
  readonly input: string;
  /** The claim then. */
  readonly claimed: number;
  /** By how much less that is, as a share of the present claim. */
  readonly gain: number;
}

/** Half as uncertain: as a sensitivity coefficient of half its size has it. */
const HALF = 0.5;

/** Every input that contributes, the greatest gain first. */
export function halvingsOf(prepared: Prepared, measurand: string): readonly Halving[] {
  const now = predictedOf(prepared, measurand).claimed;
  return prepared.linear[measurand]!.contributions.filter(({ contribution }) => contribution !== 0)
    .map(({ input }): Halving => {
      const { claimed } = predictedOf(prepared, measurand, { input, factor: HALF });
      return { input, claimed, gain: now === 0 ? 0 : (now - claimed) / now };
    })
    .toSorted((a, b) => b.gain - a.gain);
}
