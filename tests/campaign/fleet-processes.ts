import { spawn, spawnSync, type ChildProcess } from "node:child_process";
import { join } from "node:path";
import { packageRoot } from "../../server/package-root.ts";

/** Processes of a fleet, as people would start them. Needs dist/. */
export interface FleetProcess {
  readonly process: ChildProcess;
  /** What it has printed to standard error, the last of it. */
  said(): string;
  /** Ends it in one moment, as a power cut would. */
  kill(): Promise<void>;
}

const command = join(packageRoot(), "bin.mjs");

function start(args: readonly string[], url: string, within: readonly string[]): FleetProcess & { out(): string } {
  const [program, ...rest] = [...within, process.execPath, command, ...args];
  const child = spawn(program!, rest, {
    cwd: packageRoot(),
    stdio: ["ignore", "pipe", "pipe"],
    env: { ...process.env, TRIALBAND_QUEUE: url },
  });
  let [out, said] = ["", ""];
  child.stdout.on("data", (data: Buffer) => (out += data.toString("utf8")));
  child.stderr.on("data", (data: Buffer) => (said = (said + data.toString("utf8")).slice(-5000)));
  const exited = new Promise<void>((resolve) => child.once("close", () => resolve()));
  return {
    process: child,
    said: () => said,
    out: () => out,
    async kill() {
      child.kill("SIGKILL");
      await exited;
    },
  };
}

/** A worker with one thread. @param within a command that it runs under, as `ip netns exec NAME` @param more options */
export const startWorkerProcess = (url: string, within: readonly string[] = [], ...more: string[]): FleetProcess =>
  start(["worker", "--queue", "--threads", "1", "--lost-after", "3", ...more], url, within);

export interface Coordinator extends FleetProcess {
  /** Digest of the record's figures; rejects with what it printed if it ends otherwise, `null` if it was killed. */
  readonly results: Promise<string | null>;
}

/** A run by the queue, or with `null` by one thread of this machine. */
export function startRun(study: string, trials: number, seed: string, url: string | null): Coordinator {
  const how = url === null ? ["--workers", "1"] : ["--queue"];
  const started = start(["run", study, "--trials", String(trials), "--seed", seed, "--json", ...how], url ?? "", []);
  const results = new Promise<string | null>((resolve, reject) => {
    started.process.once("close", (code, signal) => {
      if (signal === "SIGKILL") return resolve(null);
      if (code !== 0) return reject(new Error(`the run ended with ${signal ?? code}: ${started.said()}`));
      resolve((JSON.parse(started.out()) as { readonly seal: { readonly results: string } }).seal.results);
    });
  });
  results.catch(() => undefined);
  return { ...started, results };
}

/** Greatest resident memory of a process so far, MB; 0 where the system does not say. */
export const greatestMemory = (pid: number): number =>
  Number(/VmHWM:\s+(\d+)/.exec(spawnSync("cat", [`/proc/${pid}/status`], { encoding: "utf8" }).stdout)?.[1] ?? 0) /
  1000;
