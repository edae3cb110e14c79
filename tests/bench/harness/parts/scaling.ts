import { ratiosOf, spreadOf } from "../arithmetic.ts";
import { openContestant, type Command, type Contestant } from "../contestant.ts";
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

/**
 * What this machine's second core gives at most: two processes that have nothing to do with each other, at once, over one of
 * them alone. Where cores share a clock, a cache or a core's own units it is less than 2.
 */
export async function measureCores(command: Command, rounds: number): Promise<Row[]> {
  const pair = [await openContestant(command), await openContestant(command)];
  try {
    const ask = (seed: number) => (contestant: Contestant) => contestant.ask("W1", TRIALS, seed);
    await Promise.all(pair.map(ask(1_000_000_007)));
    const gains: number[] = [];
    for (let round = 0; round < rounds; round++) {
      const alone = await ask(round + 1)(pair[round % 2]!);
      const together = await Promise.all(pair.map(ask(round + 1)));
      gains.push((2 * alone.milliseconds) / Math.max(...together.map(({ milliseconds }) => milliseconds)));
    }
    const spread = spreadOf(gains);
    return [
      row("scaling", `W1 at 10^7 trials: two processes over one, ${command.title}`, null, spread.median, {
        spread,
        unit: "×",
        note: `what two cores of this machine give at most, median of ${rounds} rounds`,
      }),
    ];
  } finally {
    for (const contestant of pair) await contestant.close();
  }
}
