import { readFileSync } from "node:fs";
import { join } from "node:path";
import { packageRoot } from "./root-folder.ts";

/** What needs a package by itself; the others are what the server and its store stand on. */
const NEEDED_BY: Readonly<Record<string, string>> = {
  esbuild: "A model or study in a file of one's own",
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
  const own = NEEDED_BY[name];
  // The server needs its packages together, so that all are named at once.
  const needed = own === undefined ? Object.keys(peers).filter((peer) => NEEDED_BY[peer] === undefined) : [name];
  const line = needed.map((peer) => `"${peer}@${peers[peer]}"`).join(" ");
  const what = own === undefined ? "The server and its store need packages" : `${own} needs a package`;
  return `${what} that the library alone does without. Install beside Trialband: npm install ${line}`;
}
