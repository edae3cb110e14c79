import { execFileSync } from "node:child_process";
import { cpus, loadavg, release, totalmem, type as system } from "node:os";

/** The machine and what the contestants run on, as a reader of the figures must know them. */
export interface Machine {
  readonly processor: string;
  readonly cores: number;
  readonly memoryGb: number;
  readonly system: string;
  readonly node: string;
  /** The contestants' own words, by id. */
  readonly contestants: Readonly<Record<string, string>>;
  /** Processes that wanted to run when the measurement began, averaged over a minute. */
  readonly loadBefore: number;
  readonly commit: string | null;
}

export const describeMachine = (
  root: string,
  contestants: Readonly<Record<string, string>>,
  loadBefore: number,
): Machine => ({
  processor: cpus()[0]?.model ?? "unknown",
  cores: cpus().length,
  memoryGb: Math.round(totalmem() / 2 ** 30),
  system: `${system()} ${release()}, ${process.arch}`,
  node: process.version,
  contestants,
  loadBefore,
  commit: commitOf(root),
});

export const loadNow = (): number => Math.round(loadavg()[0]! * 100) / 100;

function commitOf(root: string): string | null {
  const git = (...words: string[]): string =>
    execFileSync("git", words, { cwd: root, encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] }).trim();
  try {
    return (
      git("rev-parse", "--short", "HEAD") +
      (git("status", "--porcelain", "--", "engine", "models", "server") === "" ? "" : "+")
    );
  } catch {
    return null; // not a checkout
  }
}
