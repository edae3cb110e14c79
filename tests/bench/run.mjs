// The benchmarks: npm run bench -- --help
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { buildSync } from "esbuild";

const root = join(import.meta.dirname, "../..");
// Inside node_modules, so that what is not bundled is found from there.
const made = join(root, "node_modules/.cache/trialband-bench");
if (!process.argv.includes("--help")) {
  // The pool's workers run what is built, so it must be of the same sources as what is bundled here.
  const built = spawnSync(process.execPath, [join(root, "build.mjs"), "--if-stale"], { cwd: root, stdio: "inherit" });
  if (built.status !== 0) process.exit(built.status ?? 1);
}
mkdirSync(made, { recursive: true });
// What is bundled here is of the sources of the build, so that it takes the build's programs.
const { sources } = process.argv.includes("--help")
  ? { sources: "" }
  : JSON.parse(readFileSync(join(root, "dist/programs.json"), "utf8"));
const [engineDigest, modelsDigest] = sources.split(" ");
buildSync({
  entryPoints: {
    main: join(root, "tests/bench/harness/main.ts"),
    "ours-child": join(root, "tests/bench/harness/ours-child.ts"),
    "fleet-child": join(root, "tests/bench/harness/fleet-child.ts"),
  },
  bundle: true,
  platform: "node",
  format: "esm",
  target: "node20",
  outdir: made,
  outExtension: { ".js": ".mjs" },
  external: ["autocannon", "bullmq", "ioredis", "esbuild", "piscina"],
  logLevel: "error",
  define: { TRIALBAND_BUILD: JSON.stringify({ commit: null, engineDigest, modelsDigest }) },
  banner: {
    js: 'import { createRequire as __createRequire } from "node:module"; const require = __createRequire(import.meta.url);',
  },
});
process.exitCode =
  spawnSync(process.execPath, [join(made, "main.mjs"), root, made, ...process.argv.slice(2)], { stdio: "inherit" })
    .status ?? 1;
