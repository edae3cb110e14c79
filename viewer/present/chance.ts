import { leastOfTrials, printedChance, type Chance } from "../../engine/record/chance.ts";
import { withUnit, type Numbers } from "./numbers.ts";

export { leastOfTrials };

/** A probability in per cent as the sentences print it, with a sign for a bound: "0.0497 %", "< 0.0001 %". */
export function chanceText(chance: Chance, numbers: Pick<Numbers, "fixed">): string {
  const { percent, decimals, bound } = printedChance(chance);
  const sign = bound === null ? "" : `${bound === "below" ? "<" : ">"}\u00a0`;
  return sign + withUnit(numbers.fixed(percent, decimals), "%");
}
