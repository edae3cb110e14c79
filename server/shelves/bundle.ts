import { createHash } from "node:crypto";
import { mkdir, readFile, rename, writeFile } from "node:fs/promises";
import { userInfo, tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { Fault } from "../errors.ts";
import { packageRoot } from "../package-root.ts";

/** A user's module made runnable: where it lies, and the digest of exactly what runs. */
export interface Bundle {
  readonly url: string;
  readonly digest: string;
  readonly source: string;
}

/**
 * Bundles a `.ts`, `.mts`, `.js` or `.mjs` file with everything it imports into one module. The same file then runs
 * here and in every worker, and its digest identifies it. `trialband` resolves to this installation.
 *
 * @throws {Fault} `no-such-file`, or `model-does-not-load` with the compiler's message
 */
export async function bundleModule(path: string): Promise<Bundle> {
  await readFile(path).catch(() => {
    throw new Fault("no-such-file", `There is no file ${path}.`);
  });
  // Loaded only here: most runs use a registered model and start faster without it.
  const { build } = await import("esbuild");
  const root = packageRoot();
  const result = await build({
    entryPoints: [path],
    bundle: true,
    write: false,
    format: "esm",
    platform: "browser",
    target: "es2022",
    // The sources, not the built library: what a model does not use of them is left out of its bundle.
    alias: { trialband: join(root, "engine/index.ts"), "trialband/models": join(root, "models/index.ts") },
    logLevel: "silent",
    legalComments: "none",
  }).catch((error: unknown) => {
    throw new Fault(
      "model-does-not-load",
      `${path} cannot be compiled: ${error instanceof Error ? error.message : String(error)}`,
    );
  });
  return placeModule(result.outputFiles[0]!.text);
}

/** Writes a module's text where every thread can import it, under its own digest. */
export async function placeModule(text: string): Promise<Bundle> {
  const digest = createHash("sha256").update(text).digest("hex");
  const folder = join(tmpdir(), `trialband-${userInfo().uid}`);
  const file = join(folder, `${digest}.mjs`);
  await mkdir(folder, { recursive: true, mode: 0o700 });
  const part = `${file}.${process.pid}`;
  await writeFile(part, text, { mode: 0o600 });
  await rename(part, file);
  return { url: pathToFileURL(file).href, digest, source: text };
}
