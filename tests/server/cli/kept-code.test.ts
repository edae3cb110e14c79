import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { afterAll, expect, test } from "vitest";

const root = join(import.meta.dirname, "../../..");
// A flag of its own gives the engine's code a mark of its own, so that no other test's start has to do with it.
const FLAG = "--stack-size=983";

const RUN = [
  "bin.mjs",
  "run",
  "examples/harrowfen/steriliser-134.json",
  "--trials",
  "10000",
  "--json",
  "--workers",
  "2",
];

/** The digest of a record's figures: the rest of it names the machine's time. */
const figuresOf = (json: string): unknown =>
  (JSON.parse(json) as { readonly seal: { readonly results: string } }).seal.results;

const node = (...words: string[]) => spawnSync(process.execPath, [FLAG, ...words], { cwd: root, encoding: "utf8" });
const digest = createHash("sha256")
  .update(readFileSync(join(root, "dist/run.cjs"), "utf8"))
  .digest("hex");
const tag = node("-p", "require('node:v8').cachedDataVersionTag()").stdout.trim();
const kept = join(root, "dist/code", `${digest.slice(0, 32)}-${tag}`);

afterAll(() => rmSync(kept, { force: true }));

test("the command that runs keeps its compiled code, takes it at the next start, and compiles anew what is spoiled", () => {
  rmSync(kept, { force: true });
  expect(node("bin.mjs", "run", "--help").status).toBe(0);
  expect(existsSync(kept)).toBe(false);
  const first = node(...RUN);
  expect(first).toMatchObject({ status: 0, stderr: "" });
  const whole = readFileSync(kept);
  const { mtimeMs } = statSync(kept);

  const second = node(...RUN);
  expect(figuresOf(second.stdout)).toEqual(figuresOf(first.stdout));
  expect(statSync(kept).mtimeMs).toBe(mtimeMs);

  writeFileSync(kept, "not what the engine compiled");
  expect(figuresOf(node(...RUN).stdout)).toEqual(figuresOf(first.stdout));
  expect(readFileSync(kept).length).toBeGreaterThan(whole.length / 2);
});

test("a run does without what it can neither read nor write, and leaves nothing beside it", () => {
  rmSync(kept, { force: true });
  mkdirSync(kept);
  try {
    expect(node(...RUN)).toMatchObject({ status: 0, stderr: "" });
    expect(readdirSync(dirname(kept)).filter((name) => name.startsWith(basename(kept)))).toEqual([basename(kept)]);
  } finally {
    rmSync(kept, { recursive: true });
  }
});

test("a run that ends in an error keeps nothing, and says what a run from modules says", () => {
  rmSync(kept, { force: true });
  const failed = node("bin.mjs", "run", "no-such-study.json");
  expect(failed).toMatchObject({ status: 2, stderr: "trialband: There is no file no-such-study.json.\n" });
  expect(existsSync(kept)).toBe(false);
});
