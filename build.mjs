// Builds what runs: the library, the command line, the worker and the page, into dist/.
//   --no-page    leaves the page out
//   --dev        builds, serves and watches: page with hot reload, library, command line and workers built anew from
//                source at every change, the server restarted after it
//   --if-stale   does nothing where dist/ is newer than every source (npm runs `prepare` more often than one thinks)
import { execFileSync, spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { readdir, readFile, rm, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { parse } from "acorn";
import { build, context } from "esbuild";

const SOURCES = ["engine", "models", "library", "server", "viewer", "build.mjs", "package.json", "vite.config.ts"];
const STAMP = "dist/built";

async function newest(path) {
  const found = await stat(path);
  if (!found.isDirectory()) return found.mtimeMs;
  const entries = await readdir(path);
  return Math.max(0, ...(await Promise.all(entries.map((entry) => newest(join(path, entry))))));
}

if (process.argv.includes("--if-stale")) {
  const built = await stat(STAMP).then(
    ({ mtimeMs }) => mtimeMs,
    () => 0,
  );
  if (built > Math.max(...(await Promise.all(SOURCES.map(newest))))) process.exit(0);
}

async function sourcesUnder(folder) {
  const entries = await readdir(folder, { withFileTypes: true });
  const lists = await Promise.all(
    entries.map((entry) => {
      const path = `${folder}/${entry.name}`;
      return entry.isDirectory() ? sourcesUnder(path) : path.endsWith(".ts") ? [path] : [];
    }),
  );
  return lists.flat().sort();
}

async function digestOf(folder) {
  const hash = createHash("sha256");
  for (const path of await sourcesUnder(folder))
    hash
      .update(`${path}\n`)
      .update(await readFile(path))
      .update("\n");
  return hash.digest("hex");
}

function commit() {
  const git = (...args) => execFileSync("git", args, { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] }).trim();
  try {
    return (
      git("rev-parse", "HEAD") +
      (git("status", "--porcelain", "--", "engine", "models", "server", "viewer") === "" ? "" : "+")
    );
  } catch {
    return null; // not a checkout
  }
}

const facts = { commit: commit(), engineDigest: await digestOf("engine"), modelsDigest: await digestOf("models") };

const options = {
  define: { TRIALBAND_BUILD: JSON.stringify(facts) },
  bundle: true,
  format: "esm",
  platform: "node",
  target: "node20",
  outdir: "dist",
  splitting: true,
  chunkNames: "chunks/[name]-[hash]",
  sourcemap: "linked",
  legalComments: "none",
  logLevel: "warning",
  // These find files of their own beside themselves, or are only sometimes needed.
  external: ["bullmq", "ioredis", "esbuild", "libsql", "pino", "piscina", "express", "express-rate-limit", "helmet"],
  // Bundled CommonJS packages (seedrandom, commander) still call require.
  banner: {
    js: 'import { createRequire as __createRequire } from "node:module"; const require = __createRequire(import.meta.url);',
  },
};

const command = {
  ...options,
  // Less text is quicker parsed, at every start; names stay, for errors and their traces.
  minifyWhitespace: true,
  minifySyntax: true,
  entryPoints: {
    cli: "server/cli/main.ts",
    worker: "server/runs/pool/worker.ts",
    assemble: "server/runs/assembly/thread.ts",
    check: "server/checks/thread.ts",
    read: "server/checks/read-thread.ts",
    make: "server/documents/thread.ts",
    fleet: "server/queue/thread.ts",
    "fleet-process": "server/queue/process.ts",
    "own-model": "server/own-model/thread.ts",
    schema: "server/record/json-schema.ts",
    programs: "server/shelves/build-programs.ts",
  },
};
// The library has no code of Node's in it but in its threads, so that it bundles for a page or a user's model as well.
const library = {
  ...options,
  platform: "browser",
  external: ["node:*"],
  banner: {},
  entryPoints: {
    engine: "engine/index.ts",
    internal: "engine/internal.ts",
    models: "library/models.ts",
    evaluation: "library/evaluation.ts",
    workers: "library/workers/index.ts",
    node: "library/node/index.ts",
    "node-thread": "library/node/thread.ts",
  },
  chunkNames: "chunks/library-[name]-[hash]",
};

// One script without modules, whose compiled code bin.mjs keeps.
const kept = {
  ...command,
  entryPoints: { run: "server/cli/main-of-run.ts" },
  format: "cjs",
  splitting: false,
  outExtension: { ".js": ".cjs" },
  define: { ...command.define, "import.meta.url": "__address" },
  banner: { js: 'const __address = require("node:url").pathToFileURL(__filename).href;' },
};

/**
 * Gives every import() of a script to the function that bin.mjs hands in: code that the engine takes from what was kept has
 * lost how it imports. The name is as long as the word, so that the source map stays right.
 */
async function handImports(file) {
  const name = "_load_";
  let text = await readFile(file, "utf8");
  if (text.includes(name)) throw new Error(`${file} has a ${name} already`);
  // A script has the word, outside texts and comments, for import() alone.
  const places = [];
  const onToken = ({ type, start }) => type.keyword === "import" && places.push(start);
  parse(text, { ecmaVersion: "latest", sourceType: "script", onToken });
  for (const start of places) text = text.slice(0, start) + name + text.slice(start + name.length);
  await writeFile(file, text);
}

await rm("dist", { recursive: true, force: true });
await build(command);
// Without it, as where sources are watched, the command runs from its modules.
if (!process.argv.includes("--dev")) {
  await build(kept);
  await handImports("dist/run.cjs");
}
await build(library);
// What the threads of a pool load. The pool requires it, and a thread that is ended while it requires a module of the
// standard kind takes the whole process along (Node.js 20); one that is ended while it imports one does not.
for (const name of ["worker", "assemble", "check", "read", "make", "fleet"])
  await writeFile(
    `dist/${name}.cjs`,
    `let loaded;\nmodule.exports = async (task) => (await (loaded ??= import("./${name}.js"))).default(task);\n`,
  );
const { schemaText } = await import("./dist/schema.js");
await writeFile("dist/study.schema.json", schemaText());
// Sources that are watched change, and what was made of them would not.
if (!process.argv.includes("--dev")) {
  const { programsText } = await import("./dist/programs.js");
  await writeFile("dist/programs.json", await programsText());
}

if (!process.argv.includes("--no-page")) {
  const vite = await import("vite");
  await vite.build({ configFile: "vite.config.ts", logLevel: "warn" });
  // The style of the page at /api, which the server writes: under a name that it knows.
  await build({ entryPoints: ["viewer/page/interface.css"], bundle: true, minify: true, outdir: "dist/viewer" });
  await writeFile(STAMP, "");
}

if (process.argv.includes("--dev")) await develop();

/** Watches the sources. The server answers on its own port; the page's server passes what it is asked of `api` on. */
async function develop() {
  const port = 8418;
  let serving;
  const restart = () => {
    serving?.kill("SIGTERM");
    serving = spawn(process.execPath, ["--enable-source-maps", "bin.mjs", "serve", "--port", String(port)], {
      stdio: "inherit",
    });
  };
  // Two bundles end one after the other: the server starts once, after the last.
  let waiting;
  const restarts = {
    name: "restart",
    setup: ({ onEnd }) =>
      onEnd(({ errors }) => {
        clearTimeout(waiting);
        if (errors.length === 0) waiting = setTimeout(restart, 200);
      }),
  };
  for (const bundle of [command, library]) await (await context({ ...bundle, plugins: [restarts] })).watch();
  const { createServer } = await import("vite");
  const page = await createServer({
    configFile: "vite.config.ts",
    server: { proxy: { "/api": { target: `http://127.0.0.1:${port}`, changeOrigin: true } } },
  });
  await page.listen();
  page.printUrls();
  for (const signal of ["SIGINT", "SIGTERM"])
    process.once(signal, () => {
      serving?.kill("SIGTERM");
      process.exit(0);
    });
}
