import { createHash } from "node:crypto";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { getEnvironmentData } from "node:worker_threads";
import type { Message } from "esbuild";
import type { Problem } from "../../engine/index.ts";
import { Fault } from "../errors.ts";
import { readNamed } from "../intake/named-file.ts";
import { packageRoot } from "../package-root.ts";
import { accessorOf } from "../programs/module-access.ts";

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
  await readNamed(path);
  const { build } = await compilerFor(path);
  const result = await build({
    entryPoints: [path],
    bundle: true,
    write: false,
    outfile: join(moduleFolder(), "model.mjs"),
    // Beside the text, not in it: the digest is that of the model alone.
    sourcemap: "external",
    format: "esm",
    platform: "browser",
    target: "es2022",
    alias: doorsIn(packageRoot()),
    logLevel: "silent",
    legalComments: "none",
  }).catch((error: unknown) => {
    throw new Fault("model-does-not-load", `${path} cannot be compiled.`, complaintsOf(error));
  });
  const textOf = (end: string): string => result.outputFiles.find((file) => file.path.endsWith(end))!.text;
  const placed = await placeModule(textOf(".mjs"));
  await writeFile(`${fileURLToPath(placed.url)}.map`, textOf(".map"), { mode: 0o600 });
  return placed;
}

/**
 * The compiler: the one beside Trialband, or that of the model's own folder, where Trialband is only linked to. Loaded here
 * alone: most runs use a registered model and start faster without it.
 */
async function compilerFor(path: string): Promise<typeof import("esbuild")> {
  try {
    return await import("esbuild");
  } catch (missing) {
    try {
      return (await import(pathToFileURL(createRequire(path).resolve("esbuild")).href)) as typeof import("esbuild");
    } catch {
      throw missing;
    }
  }
}

/**
 * What a model's imports of the library are. The sources where the packages are that they stand on, since what a model does not
 * use of them is left out of its bundle; the built library in an installation, which does without these packages.
 */
function doorsIn(root: string): Record<string, string> {
  const sources = existsSync(join(root, "node_modules/zod"));
  const door = (source: string, built: string): string => join(root, sources ? source : built);
  return {
    trialband: door("engine/index.ts", "dist/engine.js"),
    "trialband/models": door("library/models.ts", "dist/models.js"),
    "trialband/evaluation": door("library/evaluation.ts", "dist/evaluation.js"),
  };
}

/** What the compiler says, each with its file and line; an import that it cannot follow with what a model may import. */
function complaintsOf(error: unknown): Problem[] {
  const { errors } = error as { readonly errors?: readonly Message[] };
  if (errors === undefined || errors.length === 0) throw error;
  return errors.map(({ text, location }) => {
    const place = location === null ? "" : `${location.file}:${location.line}:${location.column + 1}`;
    const [, wanted] = /^Could not resolve "(.*)"$/.exec(text) ?? [];
    if (wanted === undefined) return { place, value: text, accepted: "TypeScript or JavaScript that compiles" };
    return {
      place,
      value: `the import "${wanted}"`,
      accepted: /^(node:|fs$|path$|os$)/.test(wanted)
        ? "no module of Node.js: a model is a pure function, and runs in a page too"
        : wanted.startsWith(".")
          ? "a file that is there: .ts, .js or .json, beside the model"
          : "an installed package (npm install, in the model's folder), trialband, trialband/models or trialband/evaluation",
    };
  });
}

/**
 * Writes a module's text where every thread of this process can import it, under its own digest. Behind the text stands
 * what gives the values of its names to a reader of its model (server/programs).
 */
export async function placeModule(text: string): Promise<Bundle> {
  const digest = createHash("sha256").update(text).digest("hex");
  const file = join(moduleFolder(), `${digest}.mjs`);
  await writeFile(file, text + accessorOf(text), { mode: 0o600 });
  return { url: pathToFileURL(file).href, digest, source: text };
}

/** Under this name a thread is given the folder of the one that started it, which removes it at the end. */
export const MODULE_FOLDER = "trialband-modules";

let folder: string | null = null;

/**
 * A folder of this process alone, made by mkdtemp with a name that nobody can foresee and for this user only. One of a
 * known name in the temporary directory could be made beforehand by another user, whose code would then run.
 */
export function moduleFolder(): string {
  const given: unknown = getEnvironmentData(MODULE_FOLDER);
  if (typeof given === "string") return given;
  if (folder !== null) return folder;
  const made = mkdtempSync(join(tmpdir(), "trialband-"));
  process.once("exit", () => rmSync(made, { recursive: true, force: true }));
  folder = made;
  return made;
}
