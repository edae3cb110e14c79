import { ratiosOf, spreadOf } from "../arithmetic.ts";
import type { Contestant } from "../contestant.ts";
import type { Part } from "../options.ts";
import { row, type Row, type Timing } from "../row.ts";
import { disagreements, measureRounds, timesOf, timingsOf } from "../rounds.ts";

export interface Compared {
  readonly rows: readonly Row[];
  readonly timings: readonly Timing[];
  readonly faults: readonly string[];
}

/** One workload by every contestant, in interleaved rounds. */
export async function compareOn(
  workload: Part,
  contestants: readonly Contestant[],
  trials: number,
  rounds: number,
): Promise<Compared> {
  const answers = await measureRounds(contestants, workload, trials, rounds);
  const here = (id: string): boolean => answers.has(id);
  const against = (a: string, peers: readonly string[], words: string, target: string | null): Row => {
    const all = `${workload}: ${words}`;
    const present = peers.filter(here);
    if (present.length === 0) return row(workload, all, target, null, { note: `${peers.join(", ")} not here` });
    const theirs = present.map((peer) => timesOf(answers, peer));
    const fastest = theirs[0]!.map((_, round) => Math.min(...theirs.map((times) => times[round]!)));
    const spread = ratiosOf(timesOf(answers, a), fastest);
    return row(workload, all, target, spread.median, { spread, note: `median of ${rounds} rounds` });
  };
  const numpy = ["numpy-sort", "numpy-partition"];
  const rows = [
    against("ours-1", numpy, "1 worker against NumPy, the faster of its two ways", "≤0.7"),
    against("ours-2", numpy, "2 workers against NumPy, the faster of its two ways", "≤0.4"),
    against("ours-1", ["c"], "1 worker against C on one thread", workload === "W6" ? "≤0.6" : "≤1"),
  ];
  const two = answers.get("ours-2")!;
  const beside = spreadOf(two.map(({ recordMilliseconds, milliseconds }) => recordMilliseconds! / milliseconds));
  rows.push(
    row(
      workload,
      `${workload}: the whole record with its explanation over its figures alone`,
      workload === "W1" ? "≤1.5" : null,
      beside.median,
      { spread: beside, unit: "×", note: `2 workers, median of ${rounds} rounds` },
    ),
  );
  for (const id of ["ours-1", "ours-2"]) {
    const spread = spreadOf(answers.get(id)!.map(({ recordMilliseconds }) => recordMilliseconds!));
    rows.push(
      row(
        workload,
        `${workload}: the whole record with its explanation, ${id === "ours-1" ? "1 worker" : "2 workers"}`,
        null,
        spread.median,
        { spread, unit: "ms", note: `median of ${rounds} rounds` },
      ),
    );
  }
  return { rows, timings: timingsOf(contestants, workload, answers), faults: disagreements(answers) };
}
