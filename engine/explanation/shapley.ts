import type { Interval } from "../coverage/coverage-interval.ts";
import type { EndMoves } from "../record/explanation.ts";
import { CAUSES } from "./causes.ts";
import { bitOf } from "./compared-propagations.ts";

export const minus = (a: Interval, b: Interval): EndMoves => [a[0] - b[0], a[1] - b[1]];
export const plus = (a: EndMoves, b: EndMoves): EndMoves => [a[0] + b[0], a[1] + b[1]];

/**
 * The Shapley value of one of three causes: its moves averaged over all orders of letting them in.
 *
 * @param intervals by set of causes
 * @param bit of the cause
 */
export function shapley(intervals: readonly Interval[], bit: number): EndMoves {
  const others = CAUSES.map(bitOf).filter((other) => other !== bit);
  const [a, b] = [others[0]!, others[1]!];
  const move = (set: number): EndMoves => minus(intervals[set | bit]!, intervals[set]!);
  const weighted = (moves: readonly (readonly [EndMoves, number])[]): EndMoves =>
    moves.reduce<EndMoves>((sum, [[low, high], weight]) => [sum[0] + low * weight, sum[1] + high * weight], [0, 0]);
  // First, last, or in between after either of the other two: 2, 2, 1 and 1 of the 6 orders.
  return weighted([
    [move(0), 2 / 6],
    [move(a), 1 / 6],
    [move(b), 1 / 6],
    [move(a | b), 2 / 6],
  ]);
}
