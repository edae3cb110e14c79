import { spawn, type ChildProcess } from "node:child_process";
import { join } from "node:path";
import { packageRoot } from "../../server/package-root.ts";

/** A server as a person would start it, in a process of its own. Needs dist/. */
export interface ServingProcess {
  readonly url: string;
  readonly process: ChildProcess;
  /** What it has printed, the last of it. */
  said(): string;
  /** Ends it in one moment, as a power cut would. */
  kill(): Promise<void>;
  /** Asks it to stop, and waits until it has. */
  stop(): Promise<void>;
}

/** @throws {Error} with what it printed, if it ends before it listens */
export function startServing(store: string, ...options: string[]): Promise<ServingProcess> {
  const root = packageRoot();
  const child = spawn(
    process.execPath,
    ["--expose-gc", join(root, "bin.mjs"), "serve", "--port", "0", "--store", store, "--workers", "2", ...options],
    { cwd: root, stdio: ["ignore", "pipe", "pipe"] },
  );
  const exited = new Promise<void>((resolve) => child.once("exit", () => resolve()));
  const ended = async (signal: NodeJS.Signals): Promise<void> => {
    child.kill(signal);
    await exited;
  };
  return new Promise((resolve, reject) => {
    let text = "";
    const read = (chunk: Buffer): void => {
      text = (text + chunk.toString("utf8")).slice(-10_000);
      const url = /serves its page at (\S+)/.exec(text)?.[1];
      if (url !== undefined)
        resolve({ url, process: child, said: () => text, kill: () => ended("SIGKILL"), stop: () => ended("SIGTERM") });
    };
    child.stdout.on("data", read);
    child.stderr.on("data", read);
    void exited.then(() => reject(new Error(`the server ended before it listened: ${text}`)));
  });
}
