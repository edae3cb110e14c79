import type { FactorRecord, IndexRecord } from "../sensitivity/sensitivity-record.ts";

/** A budget's share this far from an index, and outside its interval, is worth a sentence. */
const APART = 0.1;
/** Least share that is named. */
const WORTH_NAMING = 0.01;

/** The indices in words: who matters, whether inputs act together, and where the budget's shares mislead. */
export function sensitivitySentence(
  symbol: string,
  factors: readonly FactorRecord[],
  interaction: IndexRecord | null,
  reason: string | null,
): string {
  if (interaction === null) return `No share of the variance of ${symbol} can be given: ${reason}.`;
  const alone = factors
    .filter(({ firstOrder }) => firstOrder!.value >= WORTH_NAMING)
    .sort((a, b) => b.firstOrder!.value - a.firstOrder!.value)
    .slice(0, 3)
    .map(({ name, firstOrder }, i) => `${name}${i === 0 ? " by itself explains" : ""} ${percent(firstOrder!.value)}`);
  const entangled = factors
    .filter(
      ({ firstOrder, total }) =>
        total!.interval[0] > firstOrder!.interval[1] && total!.value - firstOrder!.value >= WORTH_NAMING,
    )
    .sort((a, b) => b.total!.value - b.firstOrder!.value - (a.total!.value - a.firstOrder!.value))
    .slice(0, 3)
    .map(({ name }) => name);
  const together =
    interaction.interval[0] > 0
      ? `${percent(interaction.value)} arises only from inputs acting together${entangled.length === 0 ? "" : `, ${entangled.join(", ")} above all`}.`
      : "no part from inputs acting together is seen.";
  const misled = factors
    .filter(
      ({ linearShare, total }) =>
        Math.abs(linearShare - total!.value) > APART &&
        (linearShare < total!.interval[0] || linearShare > total!.interval[1]),
    )
    .sort((a, b) => b.total!.value - a.total!.value);
  const words = misled.map(
    ({ name, linearShare, total }) =>
      `${percent(linearShare)} to ${name}, which has a part in ${percent(total!.value)}`,
  );
  const budget = words.length === 0 ? "" : ` The linear budget misjudges this: it gives ${words.join("; ")}.`;
  return `Of the variance of ${symbol}, ${alone.length === 0 ? "no input explains a part by itself" : alone.join(", ")}; ${together}${budget}`;
}

/** A share as a whole percentage, one decimal where it is small; an estimate below 0 is no share. */
function percent(share: number): string {
  const value = Math.max(0, 100 * share);
  return `${value < 0.05 ? "0" : value >= 9.95 ? value.toFixed(0) : value.toFixed(1)} %`;
}
