import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { nearestRank, ratiosOf, spreadOf } from "../arithmetic.ts";
import type { RunRecord } from "../../../../engine/index.ts";
import { pythonWithNumpy, type Places } from "../contestants.ts";
import { row, type Row } from "../row.ts";
import { startRun, untilFinished, withServer } from "../server.ts";

const STUDY = "harrowfen/steriliser-134";
const REQUESTS = 200;
const WARMING = 20;

function timed(
  program: string,
  words: readonly string[],
  cwd: string,
): { readonly milliseconds: number; readonly stdout: string } {
  const clock = performance.now();
  const { status, stdout, stderr, error } = spawnSync(program, words, { cwd, encoding: "utf8", maxBuffer: 2 ** 26 });
  const milliseconds = performance.now() - clock;
  if (status !== 0) throw new Error(`${program} ${words.join(" ")} failed: ${error?.message ?? stderr.trim()}`);
  return { milliseconds, stdout };
}

interface Figures {
  readonly estimate: number;
  readonly standardUncertainty: number;
  readonly symmetric: readonly [number, number];
}

/** @throws {Error} where the two programs' figures differ by more than five standard errors of both */
function requireAgreement(record: string, peer: string): void {
  const { estimate, standardUncertainty, intervals, standardErrors } = (JSON.parse(record) as RunRecord).measurands[
    "error"
  ]!.monteCarlo;
  const theirs = JSON.parse(peer) as Figures;
  const pairs = [
    ["estimate", estimate!, theirs.estimate, standardErrors.estimate!],
    ["standard uncertainty", standardUncertainty!, theirs.standardUncertainty, standardErrors.standardUncertainty!],
    ["lower end", intervals.symmetric[0], theirs.symmetric[0], standardErrors.symmetric[0]],
    ["upper end", intervals.symmetric[1], theirs.symmetric[1], standardErrors.symmetric[1]],
  ] as const;
  for (const [name, own, other, standardError] of pairs) {
    // The peer's error is not larger than ours: it makes more trials.
    if (Math.abs(own - other) > 5 * Math.SQRT2 * standardError)
      throw new Error(`W4: the ${name} is ${own} here and ${other} in NumPy, more than five standard errors apart`);
  }
}

/** W4 cold: a whole process of ours, beside a whole process of NumPy that makes the same comparison with 10⁶ trials, once. */
export function measureCold({ root }: Places, rounds: number): Row[] {
  const study = `examples/${STUDY}.json`;
  const cold = (): number => timed(process.execPath, ["bin.mjs", "run", study], root).milliseconds;
  const python = pythonWithNumpy();
  const script = [join(root, "tests/bench/peers/flagship.py"), study];
  const least = python === null ? null : (): number => timed(python, script, root).milliseconds;
  // Once each, so that both programs' files are in memory; and they must agree.
  const record = timed(process.execPath, ["bin.mjs", "run", study, "--json"], root).stdout;
  if (python !== null) requireAgreement(record, timed(python, script, root).stdout);
  const ours: number[] = [];
  const theirs: number[] = [];
  for (let i = 0; i < rounds; i++) {
    const turns = [() => ours.push(cold()), () => (least === null ? 0 : theirs.push(least()))];
    for (const turn of i % 2 === 0 ? turns : turns.toReversed()) turn();
  }
  const note = `${rounds} whole processes each`;
  const own = spreadOf(ours);
  const ratio = theirs.length === 0 ? null : ratiosOf(ours, theirs);
  return [
    row("W4", "W4 cold, whole process, against a NumPy script that draws 10^6 once", "≤0.5", ratio?.median ?? null, {
      spread: ratio,
      note: ratio === null ? "NumPy is not here" : note,
    }),
    versionOverNothing(root, rounds),
    row("W4", "W4 cold, whole process", null, own.median, { spread: own, unit: "ms", note }),
  ];
}

/** The shortest command beside a process of Node that does nothing. */
function versionOverNothing(root: string, rounds: number): Row {
  const ways = [
    ["bin.mjs", "--version"],
    ["-e", "0"],
  ].map((words) => ({ words, times: [] as number[] }));
  // The least of several in a round: a process is as often slower as the machine has something else to do.
  for (let round = 0; round < rounds; round++)
    for (const { words, times } of ways)
      times.push(Math.min(...Array.from({ length: 5 }, () => timed(process.execPath, words, root).milliseconds)));
  const spread = ratiosOf(ways[0]!.times, ways[1]!.times);
  return row("W4", "trialband --version over node -e 0", "≤1.6", spread.median, {
    spread,
    unit: "×",
    note: `whole processes, least of 5 in a round, median of ${rounds} rounds`,
  });
}

/** W4 warm: requests to a server one after the other, each from its sending to the run's last event. */
export const measureWarm = ({ root }: Places): Promise<Row[]> =>
  withServer(root, async (home) => {
    const toItsEnd = async (seed: string): Promise<void> =>
      untilFinished(home, await startRun(home, { study: STUDY, seed }));
    for (let i = 0; i < WARMING; i++) await toItsEnd(`warming-${i}`);
    const times: number[] = [];
    for (let i = 0; i < REQUESTS; i++) {
      const clock = performance.now();
      await toItsEnd(`request-${i}`);
      times.push(performance.now() - clock);
    }
    const spread = spreadOf(times);
    const late = nearestRank(times, 0.99);
    return [
      row("W4", "W4 warm through the interface: median", "≤60", spread.median, {
        spread,
        unit: "ms",
        note: `${REQUESTS} requests, one after the other, each with a seed of its own`,
      }),
      row("W4", "W4 warm through the interface: 99th percentile over the median", "≤3", late / spread.median, {
        unit: "×",
        note: `99th percentile ${late.toFixed(1)} ms`,
      }),
    ];
  });
