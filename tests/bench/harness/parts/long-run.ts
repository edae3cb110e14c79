import { spreadOf } from "../arithmetic.ts";
import { memoryOf, type Contestant } from "../contestant.ts";
import { row, type Row } from "../row.ts";

/** How often resident memory is looked at, ms. */
const EVERY = 100;
const BESIDE = 3;

export interface LongRun {
  readonly rows: readonly Row[];
  /** Resident memory over the run in MB, thinned: for the picture and a reader. */
  readonly residentMb: readonly number[];
}

/**
 * W5: a run whose sample would not fit. Throughput is set beside W1's own, measured just before and after; memory is
 * sampled from outside. It counts as flat where the last tenth of the run holds at most 10 % more than the second.
 */
export async function measureLongRun(contestant: Contestant, asked: number, trials: number): Promise<LongRun> {
  const short: number[] = [];
  const beside = async (from: number): Promise<void> => {
    for (let i = 0; i < BESIDE; i++) short.push((await contestant.ask("W1", trials, from + i)).milliseconds / trials);
  };
  await contestant.ask("W1", trials, 1);
  await beside(11);
  const resident: number[] = [];
  const timer = setInterval(() => resident.push(memoryOf(contestant.pid).now / 1024), EVERY);
  const answer = await contestant.ask("W1", asked, 1).finally(() => clearInterval(timer));
  await beside(21);

  const perTrial = answer.milliseconds / answer.trials;
  const slower = (perTrial / spreadOf(short).median - 1) * 100;
  const million = answer.trials / 1e6;
  const limited = answer.trials < asked ? `; the engine takes at most ${answer.trials} trials` : "";
  const note = `${contestant.title}, ${million}·10^6 trials in ${(answer.milliseconds / 1000).toFixed(1)} s${limited}`;
  const known = resident.length >= 20 && resident[0]! > 0;
  const tenth = (k: number): number =>
    Math.max(...resident.slice(Math.floor((k * resident.length) / 10), Math.floor(((k + 1) * resident.length) / 10)));
  return {
    rows: [
      row("W5", "W5: time a trial over W1's", "≤20", slower, { unit: "%", note }),
      row("W5", "W5: greatest resident memory", "≤300", answer.residentKb / 1024, {
        unit: "MB",
        note: "whole process, its threads included",
      }),
      row(
        "W5",
        "W5: resident memory, last tenth of the run against the second",
        "≤1.1",
        known ? tenth(9) / tenth(1) : null,
        {
          unit: "×",
          note: known
            ? `${resident.length} samples, one in ${EVERY} ms`
            : "too few samples, or the system does not tell",
        },
      ),
      row("W5", "W5: throughput", null, 1 / perTrial / 1000, { note: "10^6 trials a second" }),
    ],
    residentMb: known
      ? Array.from({ length: 20 }, (_, i) => Math.round(resident[Math.floor((i * resident.length) / 20)]!))
      : [],
  };
}
