import { readFileSync } from "node:fs";

/** Linux gives times to programs in hundredths of a second, whatever its kernel counts in. */
const TICKS = 100;

/** Seconds of processor time that processes have used, all their threads included; `NaN` where the system does not tell. */
export const processorSeconds = (pids: readonly number[]): number => pids.reduce((sum, pid) => sum + secondsOf(pid), 0);

function secondsOf(pid: number): number {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, "utf8");
    // The name before it stands in brackets and may hold anything. Then: state, ten others, user and system time.
    const fields = stat.slice(stat.lastIndexOf(")") + 2).split(" ");
    return (Number(fields[11]) + Number(fields[12])) / TICKS;
  } catch {
    return Number.NaN;
  }
}
