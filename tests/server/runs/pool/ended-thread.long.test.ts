// @module-tag long
// A thread of a pool that is ended while it loads its file ends alone. Needs dist/.
//
// Node.js 20 and 22 abort the whole process if a thread is ended while it *requires* a module of the standard kind, in
// a moment that a graph of many modules makes likelier: with `module.exports = require("./worker.js").default` in
// place of the import one of about three children of this test is aborted or never comes back (Node.js 20.20). Whether a
// file imports is therefore looked at too, in each file; what the child shows is that importing helps.
import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { builtFile, packageRoot } from "../../../../server/package-root.ts";

const MODULES = 1000;
const ROUNDS = 40;

/** Ends two threads at a time at random moments of the time that loading takes. */
const CHILD = `
import { Piscina } from "piscina";
const [file, rounds] = process.argv.slice(2);
const open = () => new Piscina({ filename: file, minThreads: 0, maxThreads: 1, atomics: "disabled" });
const whole = open();
const began = performance.now();
if ((await whole.run({})) !== ${MODULES}) throw new Error("the file was not loaded");
const takes = performance.now() - began;
await whole.destroy().catch(() => undefined);
async function endOne() {
  const pool = open();
  const abort = new AbortController();
  const answer = pool.run({}, { signal: abort.signal }).catch(() => undefined);
  await new Promise((resolve) => setTimeout(resolve, Math.random() * takes));
  abort.abort();
  await answer;
  await pool.destroy().catch(() => undefined);
}
for (let i = 0; i < Number(rounds); i++) await Promise.all([endOne(), endOne()]);
process.stdout.write("goes on");
process.exit(0);
`;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "trialband-ended-"));
  symlinkSync(join(packageRoot(), "node_modules"), join(folder, "node_modules"));
  writeFileSync(join(folder, "child.mjs"), CHILD);
  for (let i = 0; i < MODULES; i++) writeFileSync(join(folder, `m${i}.js`), `export const m${i} = ${i};\n`);
  const all = Array.from({ length: MODULES }, (_, i) => `import { m${i} } from "./m${i}.js";\n`).join("");
  const sum = Array.from({ length: MODULES }, (_, i) => `m${i}`).join(", ");
  writeFileSync(join(folder, "package.json"), '{ "type": "module" }');
  writeFileSync(join(folder, "many.js"), `${all}export default () => [${sum}].length;\n`);
});
afterAll(() => rmSync(folder, { recursive: true }));

const FILES = ["worker", "assemble", "check", "read", "make", "fleet"];
const builtText = (name: string): string => readFileSync(builtFile(`${name}.cjs`), "utf8");

test.each(FILES)("dist/%s.cjs imports what it loads, in the words of the first", (name) => {
  const text = builtText(name);
  expect(text).toContain(`import("./${name}.js")`);
  expect(text).not.toContain("require(");
  expect(text.replaceAll(`"./${name}.js"`, "")).toBe(builtText(FILES[0]!).replaceAll(`"./${FILES[0]}.js"`, ""));
});

test("a thread that is ended while it loads such a file ends alone", async () => {
  // What is built, with many modules in the place of its own.
  const [name] = FILES as [string];
  const file = join(folder, `${name}.cjs`);
  writeFileSync(file, builtText(name).replaceAll(`"./${name}.js"`, '"./many.js"'));
  const child = spawn(process.execPath, [join(folder, "child.mjs"), file, String(ROUNDS)], { stdio: "pipe" });
  let said = "";
  child.stdout.on("data", (data: Buffer) => (said += data.toString()));
  child.stderr.on("data", (data: Buffer) => (said += data.toString()));
  const ended = await new Promise((resolve) => child.once("close", (code, signal) => resolve(signal ?? code)));
  expect(ended, said).toBe(0);
  expect(said).toBe("goes on");
});
