import { fork, type ChildProcess } from "node:child_process";
import { hostname } from "node:os";
import { faultFrom } from "../errors.ts";
import { builtFile } from "../package-root.ts";
import { moduleFolder } from "../shelves/bundle.ts";
import type { FromProcess, ProcessWork, ToProcess } from "./process-messages.ts";
import type { QueueSettings } from "./settings.ts";
import type { FleetWorker } from "./worker.ts";

export interface SupervisedOptions extends Pick<ProcessWork, "threads" | "models" | "all" | "seconds" | "lostAfter"> {
  readonly tell: (words: string) => void;
}

/** Milliseconds until another process takes the place of one that ended: the first time, and at most. */
const PAUSE = 500;
const LONGEST_PAUSE = 30_000;
/** Milliseconds after which a process has proved itself: the next pause is a short one again. */
const PROVED = 60_000;
/** Milliseconds that a process has to end when it is asked to. */
const GRACE = 5000;

/**
 * A worker in a process of its own, for models that may end it: another process takes its place, and what it was drawing
 * is drawn again.
 *
 * @throws {Fault} what `startWorker` throws; a model's file that cannot be read or compiled
 */
export async function startSupervised(
  settings: QueueSettings,
  { tell, ...options }: SupervisedOptions,
): Promise<FleetWorker> {
  const name = `${hostname()}/${process.pid}`;
  const task: ProcessWork = { kind: "work", settings, name, folder: moduleFolder(), ...options };
  let child: ChildProcess | null = null;
  let closing = false;
  let pause = PAUSE;
  let waiting: NodeJS.Timeout | undefined;

  const start = async (): Promise<void> => {
    const one = fork(builtFile("fleet-process.js"), [], {
      execArgv: [],
      stdio: ["ignore", "inherit", "inherit", "ipc"],
    });
    child = one;
    const began = performance.now();
    let ready = false;
    await new Promise<void>((resolve, reject) => {
      one.once("error", reject);
      one.on("message", (message: FromProcess) => {
        if ("tell" in message) tell(message.tell);
        if ("failed" in message) reject(faultFrom(message.failed));
        if ("ready" in message) {
          ready = true;
          resolve();
        }
      });
      one.once("exit", (code, signal) => {
        child = null;
        const how = signal ?? `exit code ${code}`;
        reject(new Error(`the worker's process ended with ${how}`));
        if (closing || !ready) return;
        if (performance.now() - began > PROVED) pause = PAUSE;
        tell(`The process that draws ended (${how}). Another takes its place; what it was drawing is drawn again.`);
        again();
      });
      one.send(task satisfies ToProcess, () => undefined);
    });
  };
  const again = (): void => {
    waiting = setTimeout(() => {
      start().catch((error: unknown) => {
        if (closing) return;
        tell(`No process could take its place yet: ${error instanceof Error ? error.message : String(error)}`);
        again();
      });
    }, pause);
    pause = Math.min(2 * pause, LONGEST_PAUSE);
  };

  await start();
  return {
    name,
    async close() {
      closing = true;
      clearTimeout(waiting);
      const one = child;
      if (one === null) return;
      const ended = new Promise((resolve) => one.once("exit", resolve));
      const timer = setTimeout(() => one.kill("SIGKILL"), GRACE);
      one.send({ kind: "close" } satisfies ToProcess, () => undefined);
      await ended;
      clearTimeout(timer);
    },
  };
}
