import { spawnSync } from "node:child_process";
import type { Command } from "../contestant.ts";
import { row, type Row } from "../row.ts";

/**
 * Two runs of a whole process: what starting it takes is in both, and goes away in the difference. Both are longer than the
 * runs of which the whole record is made as well, and long enough for an engine to have compiled what it will.
 */
const FEWER = 4_000_000;
const MORE = 16_000_000;

interface Counter {
  readonly name: string;
  readonly program: string;
  readonly words: readonly string[];
  /** Instructions in what the counter printed; `null` where it found none. */
  read(text: string): number | null;
}

const COUNTERS: readonly Counter[] = [
  {
    name: "perf",
    program: "perf",
    words: ["stat", "-x", ",", "-e", "instructions:u"],
    read: (text) => numberIn(/^(\d+),[^,]*,instructions/m, text),
  },
  {
    name: "valgrind",
    program: "valgrind",
    words: ["--tool=callgrind", "--callgrind-out-file=/dev/null"],
    read: (text) => numberIn(/Collected\s*:\s*(\d+)/, text),
  },
];

const numberIn = (pattern: RegExp, text: string): number | null => {
  const found = pattern.exec(text)?.[1];
  return found === undefined ? null : Number(found);
};

/**
 * Counts the instructions of W1, drawing to ordering, for each command that speaks the lines. valgrind knows fewer
 * instructions than a processor may have, so a compiled peer is given as it can run there.
 */
export function countInstructions(commands: readonly Command[]): Row[] {
  const works = ({ program, words, read }: Counter): boolean =>
    read(spawnSync(program, [...words, process.execPath, "--version"], { encoding: "utf8" }).stderr ?? "") !== null;
  const counter = COUNTERS.find(works);
  return commands.map(({ title, program, words }) => {
    const what = `W1: instructions a trial, ${title}`;
    if (counter === undefined)
      return row("instructions", what, null, null, { note: "neither perf nor valgrind counts here" });
    const count = (trials: number): number => {
      const { status, stderr } = spawnSync(counter.program, [...counter.words, program, ...words], {
        input: `W1 ${trials} 1\n`,
        encoding: "utf8",
        maxBuffer: 1e8,
      });
      return status === 0 ? (counter.read(stderr) ?? Number.NaN) : Number.NaN;
    };
    const each = (count(MORE) - count(FEWER)) / (MORE - FEWER);
    if (!(each > 0)) return row("instructions", what, null, null, { note: `it does not run under ${counter.name}` });
    return row("instructions", what, null, each, {
      note: `${counter.name}, (${MORE / 1e6} − ${FEWER / 1e6})·10^6 trials`,
    });
  });
}
