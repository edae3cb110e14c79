import { ratiosOf } from "../arithmetic.ts";
import type { Contestant } from "../contestant.ts";
import { row, type Timing, type Row } from "../row.ts";
import { disagreements, measureRounds, timesOf, timingsOf } from "../rounds.ts";

const TRIALS = 10_000_000;

/** What a second worker gains, where the run is long enough for it. */
export async function measureScaling(
  one: Contestant,
  two: Contestant,
  rounds: number,
): Promise<{ rows: Row[]; timings: Timing[]; faults: string[] }> {
  const answers = await measureRounds([one, two], "W1", TRIALS, rounds);
  const spread = ratiosOf(timesOf(answers, one.id), timesOf(answers, two.id));
  return {
    rows: [
      row("scaling", "W1 at 10^7 trials: 2 workers over 1", "≥1.85", spread.median, {
        spread,
        unit: "×",
        note: `median of ${rounds} rounds`,
      }),
    ],
    timings: timingsOf([one, two], "W1 at 10^7", answers),
    faults: disagreements(answers),
  };
}
