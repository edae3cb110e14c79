#!/usr/bin/env node
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { cachedDataVersionTag } from "node:v8";
import { Script } from "node:vm";

const entry = new URL("./dist/cli.js", import.meta.url);
const scriptOfRun = fileURLToPath(new URL("./dist/run.cjs", import.meta.url));
if (!existsSync(entry)) {
  process.stderr.write("trialband: not built yet; run npm run build in its folder.\n");
  process.exit(1);
}
const asked = process.argv[2] === "run" && existsSync(scriptOfRun);
const { main } = asked ? fromKeptCode(scriptOfRun) : await import(entry.href);
await main(process.argv);

/**
 * Runs a script and keeps what the engine compiled of it beside the script, so that the next start need not compile it. It lies
 * under the digest of the script's text and what the engine says its code depends on (version, flags, processor); the engine
 * compiles anew what it does not take. Who can write there can write the script too, so that nobody else's code comes in; where
 * this user cannot, nothing is kept.
 */
function fromKeptCode(filename) {
  const text = readFileSync(filename, "utf8");
  const digest = createHash("sha256").update(text).digest("hex").slice(0, 32);
  const kept = `${dirname(filename)}/code/${digest}-${cachedDataVersionTag()}`;
  const cachedData = readIfThere(kept);
  const wrapped = `(function (exports, require, module, __filename, __dirname, _load_) {${text}\n})`;
  const script = new Script(wrapped, { filename, cachedData });
  const module = { exports: {} };
  const load = (name) => import(name);
  script.runInThisContext()(module.exports, createRequire(filename), module, filename, dirname(filename), load);
  // At the end of a run, when what it needs has been compiled: a help text needs little, and a study in TypeScript runs in a
  // thread of its own. Under another name first: others may start meanwhile.
  const runs = process.argv.some((word) => word.endsWith(".json"));
  if (runs && (cachedData === undefined || script.cachedDataRejected))
    process.once("exit", (code) => {
      if (code !== 0) return;
      const whole = `${kept}.${process.pid}`;
      try {
        mkdirSync(dirname(kept), { recursive: true });
        writeFileSync(whole, script.createCachedData());
        renameSync(whole, kept);
      } catch {
        // A folder of which this user is no owner, or a full disk: the next start compiles again.
        if (existsSync(whole)) rmSync(whole);
      }
    });
  return module.exports;
}

/** What is not there, or what this user cannot read, is compiled again. */
function readIfThere(path) {
  try {
    return readFileSync(path);
  } catch {
    return undefined;
  }
}
