import { ratiosOf } from "../arithmetic.ts";
import type { Answer } from "../answer.ts";
import { openContestant, type Command, type Contestant } from "../contestant.ts";
import { row, type Row } from "../row.ts";

/** Runs that are not counted: by then both models are compiled. */
const WARMING = 6;

/**
 * W1 with its model typed as an equation beside the one written in TypeScript, each in a process of its own, by turns.
 *
 * @param command opens a contestant of ours with one worker, under an id
 */
export async function measureTyped(
  command: (id: string) => Command,
  trials: number,
  rounds: number,
): Promise<{ rows: Row[]; faults: string[] }> {
  const written = {
    contestant: await openContestant(command("ours-written")),
    workload: "W1",
    answers: [] as Answer[],
  };
  const typed = {
    contestant: await openContestant(command("ours-typed")),
    workload: "W1-typed",
    answers: [] as Answer[],
  };
  try {
    for (let round = -WARMING; round < rounds; round += 1)
      for (const { contestant, workload, answers } of round % 2 === 0 ? [written, typed] : [typed, written]) {
        const answer = await contestant.ask(workload, trials, round + 1 + WARMING);
        if (round >= 0) answers.push(answer);
      }
  } finally {
    await Promise.all([written, typed].map(({ contestant }: { contestant: Contestant }) => contestant.close()));
  }
  const [times, others] = [typed, written].map(({ answers }) => answers.map(({ milliseconds }) => milliseconds));
  const spread = ratiosOf(times!, others!);
  return {
    rows: [
      row(
        "typed",
        "W1 with its model typed as an equation over the one written in TypeScript",
        "≤1.05",
        spread.median,
        {
          spread,
          unit: "×",
          note: `1 worker, median of ${rounds} rounds`,
        },
      ),
    ],
    faults: typed.answers.flatMap(({ checksum, seed }, round) =>
      checksum === written.answers[round]!.checksum
        ? []
        : [`typed, seed ${seed}: ${checksum}; the written model gives ${written.answers[round]!.checksum}`],
    ),
  };
}
