// Starts the command line as a person would. Needs dist/ (npm test builds it).
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll } from "vitest";

export const root = new URL("../../..", import.meta.url).pathname;

export interface Finished {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

export function trialband(...args: string[]): Finished {
  const { FORCE_COLOR: _, ...env } = process.env;
  return spawnSync(process.execPath, [join(root, "bin.mjs"), ...args], {
    cwd: root,
    encoding: "utf8",
    maxBuffer: 1 << 26,
    env: { ...env, NO_COLOR: "1" },
  });
}

/** A folder for the files of one test file. */
export function scratch(): { path(name: string): string; write(name: string, content: unknown): string } {
  let folder = "";
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "trialband-cli-"));
  });
  afterAll(() => rmSync(folder, { recursive: true }));
  return {
    path: (name) => join(folder, name),
    write(name, content) {
      const path = join(folder, name);
      writeFileSync(path, typeof content === "string" ? content : JSON.stringify(content));
      return path;
    },
  };
}
