import { readFileSync } from "node:fs";
import { join } from "node:path";
import { packageRoot } from "./root-folder.ts";

/** What needs packages of its own; all others are what the server and its store stand on. */
const APART: Readonly<Record<string, readonly string[]>> = {
  "A model or study in a file of one's own needs": ["esbuild"],
  "A queue of workers needs": ["bullmq", "ioredis"],
};

/**
 * What to install, if an error says that a package is missing which Trialband leaves to who installs it: the library
 * alone needs none of them. `null` for every other error.
 */
export function missingPackage(error: unknown): string | null {
  const { code, message } = (error ?? {}) as { readonly code?: unknown; readonly message?: unknown };
  if (code !== "ERR_MODULE_NOT_FOUND" && code !== "MODULE_NOT_FOUND") return null;
  const name = /^Cannot find (?:package|module) '([^'/]+)/.exec(String(message))?.[1];
  if (name === undefined) return null;
  const manifest = JSON.parse(readFileSync(join(packageRoot(), "package.json"), "utf8")) as {
    readonly peerDependencies: Readonly<Record<string, string>>;
  };
  const peers = manifest.peerDependencies;
  if (!Object.hasOwn(peers, name)) return null;
  const apart = Object.entries(APART).find(([, names]) => names.includes(name));
  // What is needed together is named at once.
  const others = Object.keys(peers).filter((peer) => !Object.values(APART).flat().includes(peer));
  const line = (apart?.[1] ?? others).map((peer) => `"${peer}@${peers[peer]}"`).join(" ");
  const what = apart?.[0] ?? "The server and its store need";
  return `${what} what the library alone does without. Install beside Trialband: npm install ${line}`;
}
