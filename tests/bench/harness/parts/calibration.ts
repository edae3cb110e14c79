import { spawnSync } from "node:child_process";
import { spreadOf } from "../arithmetic.ts";
import type { Places } from "../contestants.ts";
import { row, type Row } from "../row.ts";

/** Rounds of the grid: one takes seconds. */
const GRID_ROUNDS = 3;

/** Whole processes from the files to the printed result: a calibration of two instruments, and a grid of two quantities. */
export function measureCalibration({ root }: Places, rounds: number): Row[] {
  const timed = (words: readonly string[], times: number): number[] =>
    Array.from({ length: times }, () => {
      const clock = performance.now();
      const { status, stderr, error } = spawnSync(process.execPath, ["bin.mjs", ...words], {
        cwd: root,
        encoding: "utf8",
        maxBuffer: 2 ** 27,
      });
      const milliseconds = performance.now() - clock;
      if (status !== 0) throw new Error(`${words.join(" ")} failed: ${error?.message ?? stderr.trim()}`);
      return milliseconds;
    });
  const of = (words: string, target: string, command: readonly string[], times: number): Row => {
    const spread = spreadOf(timed(command, times));
    return row("calibration", words, target, spread.median, { spread, unit: "ms", note: `${times} whole processes` });
  };
  return [
    of(
      "A calibration: five points, two instruments, 10^6 trials",
      "≤2000",
      ["calibrate", "examples/calibration/two-probes.json"],
      rounds,
    ),
    of("A grid of 41 × 15 points, 10^5 trials", "≤10000", ["sweep", "examples/range/grid.json"], GRID_ROUNDS),
  ];
}
