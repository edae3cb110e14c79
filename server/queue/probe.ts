import { fork } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Fault } from "../errors.ts";
import { builtFile } from "../package-root.ts";
import type { ProcessProbe } from "./process-messages.ts";
import { readTrace } from "./trace.ts";

/** Megabytes of objects that it may hold, as a thread. */
const OBJECTS = 512;

export type Probed = Omit<ProcessProbe, "kind" | "file" | "only">;

/**
 * Evaluates the trials of a job that ended the processes which drew it, one by one in a process of its own, to name the
 * trial that does it. The trial at which the process ends is evaluated once more alone, in another process: only if that
 * ends too, the trial is what does it, and not what somebody did to the process.
 *
 * @param last whether nobody will try the job again: then a trial is named that does it together with those before it, if at all
 * @param seconds that it may take; a job for which that is too little is drawn again
 * @returns `null` if nothing is found
 */
export async function probeOf(
  task: Probed,
  last: boolean,
  seconds: number,
  signal: AbortSignal,
): Promise<Fault | null> {
  const whole = await run(task, null, seconds, signal);
  if (whole === null) return null;
  const { trial, words, how } = whole;
  const alone = await run(task, trial, seconds, signal);
  if (alone !== null) return new Fault("worker-lost", `The model ends its process (${how}) at ${words}.`);
  return last
    ? new Fault(
        "worker-lost",
        `The processes that drew these trials ended (${how}), one after the other; the last was at ${words}, which alone ends none. Does the model keep ever more memory?`,
      )
    : null;
}

interface Ended {
  readonly trial: number;
  readonly words: string;
  readonly how: string;
}

/** @returns where it was when its process ended by itself; `null` if it came to its end, or was given up */
async function run(task: Probed, only: number | null, seconds: number, signal: AbortSignal): Promise<Ended | null> {
  const folder = mkdtempSync(join(tmpdir(), "trialband-probe-"));
  const file = join(folder, "trial");
  writeFileSync(file, "", { mode: 0o600 });
  const child = fork(builtFile("fleet-process.js"), [], {
    execArgv: [`--max-old-space-size=${OBJECTS}`],
    // What a model prints, and what Node.js says of one that takes all memory.
    stdio: ["ignore", "ignore", "ignore", "ipc"],
  });
  let givenUp = false;
  let came = false;
  const giveUp = (): void => {
    givenUp = true;
    child.kill("SIGKILL");
  };
  const timer = setTimeout(giveUp, 1000 * seconds);
  signal.addEventListener("abort", giveUp, { once: true });
  if (signal.aborted) giveUp();
  try {
    const how = await new Promise<string>((resolve, reject) => {
      child.once("error", reject);
      child.on("message", () => (came = true));
      // Its last word may come after its end; the channel closes behind it.
      let end: string | null = null;
      const over = (): void => {
        if (end !== null && !child.connected) resolve(end);
      };
      child.once("exit", (code, ended) => {
        end = ended ?? `exit code ${code}`;
        over();
      });
      child.once("disconnect", over);
      child.send({ kind: "probe", ...task, file, only } satisfies ProcessProbe, () => undefined);
    });
    const found = readTrace(readFileSync(file));
    return givenUp || came || found === null ? null : { ...found, how };
  } finally {
    clearTimeout(timer);
    signal.removeEventListener("abort", giveUp);
    rmSync(folder, { recursive: true, force: true });
  }
}
