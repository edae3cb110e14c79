import { spawn, type ChildProcessWithoutNullStreams } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { createInterface } from "node:readline";
import type { Answer } from "./answer.ts";

/** A long-lived child process that answers lines. */
export interface Contestant {
  readonly id: string;
  readonly title: string;
  /** What it runs on, in its own words. */
  readonly name: string;
  readonly pid: number;
  /** @returns the answer, with the greatest resident memory since the question where the system tells it */
  ask(workload: string, trials: number, seed: number): Promise<Answer>;
  say(line: string): Promise<unknown>;
  close(): Promise<void>;
}

export interface Command {
  readonly id: string;
  readonly title: string;
  readonly program: string;
  readonly words: readonly string[];
}

/** Starts a contestant and waits for its greeting. */
export async function openContestant({ id, title, program, words }: Command): Promise<Contestant> {
  const child = spawn(program, words, { stdio: "pipe" }) as ChildProcessWithoutNullStreams;
  let complaints = "";
  child.stderr.setEncoding("utf8").on("data", (text: string) => (complaints = (complaints + text).slice(-2000)));
  const waiting: { resolve(line: string): void; reject(error: Error): void }[] = [];
  createInterface({ input: child.stdout }).on("line", (line) => waiting.shift()?.resolve(line));
  const ended = new Promise<void>((resolve) => {
    const end = (why: string): void => {
      for (const { reject } of waiting.splice(0))
        reject(new Error(`${title} ${why}: ${complaints.trim() || "it said nothing"}`));
      resolve();
    };
    child.on("close", (code) => end(`ended with code ${code}`));
    child.on("error", (error) => end(`did not start (${error.message})`));
  });
  child.stdin.on("error", () => undefined);
  const hear = (): Promise<string> => new Promise((resolve, reject) => waiting.push({ resolve, reject }));
  const say = async (line: string): Promise<unknown> => {
    const answer = hear();
    child.stdin.write(`${line}\n`);
    return JSON.parse(await answer) as unknown;
  };
  const { name } = JSON.parse(await hear()) as { name: string };
  const pid = child.pid!;
  return {
    id,
    title,
    name,
    pid,
    say,
    async ask(workload, trials, seed) {
      const forgotten = forgetPeak(pid);
      const answer = (await say(`${workload} ${trials} ${seed}`)) as Answer;
      return forgotten ? { ...answer, residentKb: memoryOf(pid).peak } : answer;
    },
    async close() {
      child.stdin.end();
      await ended;
    },
  };
}

/** Resident memory of a process now and at its greatest, kB; zeros where the system does not tell. */
export function memoryOf(pid: number): { readonly now: number; readonly peak: number } {
  try {
    const status = readFileSync(`/proc/${pid}/status`, "utf8");
    const field = (name: string): number => Number(new RegExp(`^${name}:\\s+(\\d+)`, "m").exec(status)?.[1] ?? 0);
    return { now: field("VmRSS"), peak: field("VmHWM") };
  } catch {
    return { now: 0, peak: 0 };
  }
}

/** Starts the greatest resident memory of a process anew, where the system can. */
function forgetPeak(pid: number): boolean {
  try {
    writeFileSync(`/proc/${pid}/clear_refs`, "5");
    return true;
  } catch {
    return false;
  }
}
