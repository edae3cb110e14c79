import { compareContestants, ALLOWED } from "./agreement.ts";
import { faultsOf, type Answer } from "./answer.ts";
import { spreadOf } from "./arithmetic.ts";
import type { Contestant } from "./contestant.ts";
import type { Timing } from "./row.ts";

/** A contestant's answers in the order of the rounds; seeds are the rounds' numbers. */
export type Answers = ReadonlyMap<string, readonly Answer[]>;

/** Trials that each contestant is warmed with: a JavaScript engine has compiled and settled all it will by then. */
const WARMING = 12_000_000;

/**
 * Warms every contestant, as a server or a long session is, then asks each in turn, round after round, so that what disturbs the machine meets all
 * of them. The first to be asked changes from round to round.
 */
export async function measureRounds(
  contestants: readonly Contestant[],
  workload: string,
  trials: number,
  rounds: number,
): Promise<Answers> {
  const answers = new Map<string, Answer[]>(contestants.map(({ id }) => [id, []]));
  for (const contestant of contestants) {
    for (let warmed = 0; warmed < WARMING; warmed += trials)
      await contestant.ask(workload, trials, 1_000_000_007 + warmed);
  }
  for (let round = 0; round < rounds; round++) {
    for (let i = 0; i < contestants.length; i++) {
      const contestant = contestants[(round + i) % contestants.length]!;
      answers.get(contestant.id)!.push(await contestant.ask(workload, trials, round + 1));
    }
  }
  return answers;
}

export const timesOf = (answers: Answers, id: string): number[] =>
  answers.get(id)!.map(({ milliseconds }) => milliseconds);

export const timingsOf = (contestants: readonly Contestant[], workload: string, answers: Answers): Timing[] =>
  contestants.map(({ id, title }) => ({
    workload,
    contestant: id,
    title,
    milliseconds: spreadOf(timesOf(answers, id)),
    residentMb: Math.round(Math.max(...answers.get(id)!.map(({ residentKb }) => residentKb)) / 1024),
    checksum: answers.get(id)![0]!.checksum,
  }));

/** What keeps the answers from being those of one computation, in words; nothing where all agree. */
export function disagreements(answers: Answers): string[] {
  const faults = [...answers].flatMap(([id, all]) =>
    all.flatMap((answer) => faultsOf(answer).map((fault) => `${answer.workload} ${id}, seed ${answer.seed}: ${fault}`)),
  );
  const ids = [...answers.keys()];
  const apart = ids.flatMap((a, i) =>
    ids.slice(i + 1).flatMap((b) => disagreementsOf(a, answers.get(a)!, b, answers.get(b)!)),
  );
  return [...faults, ...apart];
}

function disagreementsOf(a: string, first: readonly Answer[], b: string, second: readonly Answer[]): string[] {
  // The same seed gives ours the same figures, bit for bit, for any number of workers, and so the same checksum.
  if (a.startsWith("ours") && b.startsWith("ours")) {
    return first.flatMap(({ workload, seed, checksum }, i) =>
      checksum === second[i]!.checksum
        ? []
        : [`${workload}: ${a} and ${b} have different bits with seed ${seed}: ${checksum}, ${second[i]!.checksum}`],
    );
  }
  return compareContestants(first, second)
    .filter(({ agrees }) => !agrees)
    .map(
      ({ figure, difference, standardError }) =>
        `${figure}: ${a} less ${b} is ${difference.toExponential(3)}, more than ${ALLOWED} standard errors of ${standardError.toExponential(3)}`,
    );
}
