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
  const against = (a: string, b: string, words: string, target: string | null): Row => {
    const all = `${workload}: ${words}`;
    if (!here(b)) return row(workload, all, target, null, { note: `${b} is not here` });
    const spread = ratiosOf(timesOf(answers, a), timesOf(answers, b));
    return row(workload, all, target, spread.median, { spread, note: `median of ${rounds} rounds` });
  };
  const rows = [against("ours-2", "numpy-sort", "2 workers against NumPy", "≤0.20")];
  if (workload === "W1") {
    rows.push(against("ours-1", "numpy-sort", "1 worker against NumPy", "≤0.35"));
    rows.push(against("ours-1", "c", "1 worker against C on one thread", "≤1.3"));
  } else {
    rows.push(against("ours-1", "numpy-sort", "1 worker against NumPy", null));
    rows.push(against("ours-1", "c", "1 worker against C on one thread", null));
  }
  rows.push(against("ours-2", "numpy-partition", "2 workers against NumPy that sorts the tails alone", null));
  const own = answers.get("ours-1")!;
  const times = spreadOf(own.map(({ recordMilliseconds, milliseconds }) => recordMilliseconds! / milliseconds));
  // An explanation is at most eight propagations of 400 000 trials: 3.2 times the work of 10⁶.
  rows.push(
    row(workload, `${workload}: the whole record with its explanation, over the trials alone`, "≤5", times.median, {
      spread: times,
      unit: "×",
      note: `1 worker, median of ${rounds} rounds`,
    }),
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
