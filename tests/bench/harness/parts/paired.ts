import { prepare, readStudy, type Model } from "../../../../engine/index.ts";
import { openTrials, type TrialSource } from "../../../../engine/internal.ts";
import { ratiosOf } from "../arithmetic.ts";
import { row, type Row } from "../row.ts";

/** Batches that are not counted: by then both ways are compiled. */
const WARMING = 20;
/** Batches of either way within a round, taken by turns. */
const EACH = 50;

/** What the linearised trials beside W1's add to its time: drawing, model and batches on this thread, with them and without. */
export function measurePaired(model: Model, document: object, rounds: number): Row[] {
  const { source, limit } = prepare(model, readStudy({ ...document, trials: 1_000_000 }));
  const alone: TrialSource = { ...source, linearised: source.linearised.map(() => null) };
  const ways = [source, alone].map((from) => ({ draw: openTrials(from), milliseconds: [] as number[] }));
  const batch = Math.min(10_000, limit);
  for (let round = -1; round < rounds; round++) {
    // The least of a round: what disturbs the machine only adds to a batch's time.
    const least = [Infinity, Infinity];
    for (let i = 0; i < (round < 0 ? WARMING : EACH); i++) {
      for (const which of i % 2 === 0 ? [0, 1] : [1, 0]) {
        const start = performance.now();
        ways[which]!.draw(i * batch, batch);
        least[which] = Math.min(least[which]!, performance.now() - start);
      }
    }
    if (round >= 0) ways.forEach(({ milliseconds }, which) => milliseconds.push(least[which]!));
  }
  const [beside, without] = ways.map(({ milliseconds }) => milliseconds);
  const spread = ratiosOf(beside!, without!);
  return [
    row("paired", "W1: trials with their linearised ones over trials alone", "≤1.08", spread.median, {
      spread,
      unit: "×",
      note: `one thread, batches by turns, least of ${EACH} in a round, median of ${rounds} rounds`,
    }),
  ];
}
