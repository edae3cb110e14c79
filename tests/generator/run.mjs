// Runs a TypeScript file of the tests with no build step: node tests/generator/run.mjs FILE ARGUMENTS…
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { spawnSync } from "node:child_process";
import { buildSync } from "esbuild";

const [file, ...rest] = process.argv.slice(2);
const folder = mkdtempSync(join(tmpdir(), "trialband-run-"));
try {
  const outfile = join(folder, "program.mjs");
  buildSync({
    entryPoints: [file],
    bundle: true,
    platform: "node",
    format: "esm",
    outfile,
    logLevel: "error",
    banner: {
      js: 'import { createRequire } from "node:module"; const require = createRequire(import.meta.url); const __dirname = import.meta.dirname;',
    },
  });
  process.exitCode = spawnSync(process.execPath, [outfile, ...rest], { stdio: "inherit" }).status ?? 1;
} finally {
  rmSync(folder, { recursive: true });
}
