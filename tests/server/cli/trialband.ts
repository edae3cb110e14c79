import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, vi } from "vitest";
import { main } from "../../../server/cli/main.ts";

export const root = new URL("../../..", import.meta.url).pathname;

// Each thread that other tests of this process keep listens to it too; a command in its own process is the first to listen.
for (const stream of [process.stdout, process.stderr]) stream.setMaxListeners(0);

export interface Finished {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the command line as a person types it, within this process and from source. */
export async function trialband(...args: string[]): Promise<Finished> {
  const written = { stdout: "", stderr: "" };
  const before = process.stdout.listeners("error");
  vi.stubEnv("NO_COLOR", "1");
  process.exitCode = undefined;
  const spies = (["stdout", "stderr"] as const).map((stream) =>
    vi.spyOn(process[stream], "write").mockImplementation((text) => {
      written[stream] += String(text);
      return true;
    }),
  );
  try {
    await main(["node", "trialband", ...args]);
    return { status: Number(process.exitCode ?? 0), ...written };
  } finally {
    for (const spy of spies) spy.mockRestore();
    process.exitCode = undefined;
    vi.unstubAllEnvs();
    for (const listener of process.stdout.listeners("error"))
      if (!before.includes(listener)) process.stdout.off("error", listener as () => void);
  }
}

/** Starts the built command line in a process of its own: for exit codes, streams and the start itself. Needs `dist/`. */
export function startTrialband(...args: string[]): Finished {
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
