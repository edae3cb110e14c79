import { ratiosOf } from "../arithmetic.ts";
import { openContestant, type Command } from "../contestant.ts";
import { row, type Row } from "../row.ts";
import { disagreements, measureRounds, timesOf } from "../rounds.ts";

/**
 * W1 in a process that ran 20 other models, beside a process that ran none. What an engine learns of one model's
 * shapes can spoil the next.
 *
 * @param command opens a contestant of ours with one worker, under an id
 */
export async function measureAfterOthers(
  command: (id: string) => Command,
  trials: number,
  rounds: number,
): Promise<{ rows: Row[]; faults: string[] }> {
  const fresh = await openContestant(command("ours-fresh"));
  const after = await openContestant(command("ours-after"));
  try {
    const { models } = (await after.say("others")) as { models: number };
    const answers = await measureRounds([fresh, after], "W1", trials, rounds);
    const spread = ratiosOf(timesOf(answers, after.id), timesOf(answers, fresh.id));
    const words = `W1 after ${models} other models in the same process against a fresh one`;
    return {
      rows: [
        row("others", words, "≤1.15", spread.median, {
          spread,
          unit: "×",
          note: `1 worker, median of ${rounds} rounds`,
        }),
      ],
      faults: disagreements(answers),
    };
  } finally {
    await fresh.close();
    await after.close();
  }
}
