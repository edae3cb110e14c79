// The campaigns against a record and a server: npm run campaign -- --help
import { spawnSync } from "node:child_process";
import { rmSync } from "node:fs";
import { join } from "node:path";
import { buildSync } from "esbuild";

const root = join(import.meta.dirname, "../..");
// Beside the sources, so that the installation, its packages and its own files are found from there.
const made = join(root, "tests/campaign/made.mjs");
const built = spawnSync(process.execPath, [join(root, "build.mjs"), "--if-stale"], { cwd: root, stdio: "inherit" });
if (built.status !== 0) process.exit(built.status ?? 1);
try {
  buildSync({
    entryPoints: [join(root, "tests/campaign/main.ts")],
    bundle: true,
    platform: "node",
    format: "esm",
    target: "node20",
    outfile: made,
    define: { CAMPAIGN_ROOT: JSON.stringify(root) },
    external: ["bullmq", "ioredis", "esbuild", "piscina", "libsql", "express", "read-excel-file", "read-excel-file/*"],
    logLevel: "error",
    banner: {
      js: 'import { createRequire as __createRequire } from "node:module"; const require = __createRequire(import.meta.url);',
    },
  });
  process.exitCode =
    spawnSync(process.execPath, [made, ...process.argv.slice(2)], { cwd: root, stdio: "inherit" }).status ?? 1;
} finally {
  rmSync(made, { force: true });
}
