// Models of one's own that do what a model must not. Needs dist/: they run in a thread of their own.
import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { root, trialband } from "./trialband.ts";
import { LONG } from "../../setup/long.ts";

let folder: string;
beforeAll(() => void (folder = mkdtempSync(join(tmpdir(), "trialband-own-"))));
afterAll(() => rmSync(folder, { recursive: true }));

/** A study of one input with a model whose `evaluate` is this text. */
function studyWith(name: string, evaluate: string, before = ""): string {
  writeFileSync(
    join(folder, `${name}.ts`),
    `import { defineModel } from "trialband";
${before}
export default defineModel({
  id: "own",
  title: "Own",
  measurands: { y: { symbol: "y", meaning: "y", unit: "1" } },
  inputs: { x: { symbol: "x", meaning: "x", unit: "1" } },
  evaluate: ${evaluate},
});
`,
  );
  const study = join(folder, `${name}.json`);
  writeFileSync(
    study,
    JSON.stringify({
      title: "Own",
      model: `./${name}.ts`,
      inputs: { x: { distribution: "normal", estimate: 1, standardUncertainty: 0.1 } },
      trials: 20_000,
    }),
  );
  return study;
}

test.each([
  [
    "ends the process as it is loaded",
    "({ x }) => x",
    "(globalThis as any).process.exit(0);",
    [],
    1,
    /exit code 0.*process\.exit/,
  ],
  [
    "ends the process at a trial",
    "({ x }) => { if (x > 1.2) (globalThis as any).process.exit(0); return x; }",
    "",
    [],
    1,
    /exit code 0.*process\.exit/,
  ],
  [
    "takes memory without end",
    "({ x }) => { kept.push(Array.from({ length: 1000 }, () => x)); return x; }",
    "const kept: unknown[] = [];",
    ["--memory-limit", "100"],
    1,
    /more than 100 MB of memory, the limit of --memory-limit/,
  ],
  [
    "takes memory outside the heap",
    "({ x }) => { kept.push(new Float64Array(1e6).fill(x)); return x; }",
    "const kept: unknown[] = [];",
    ["--memory-limit", "300"],
    1,
    /more than 300 MB of memory/,
  ],
  ["never returns", "({ x }) => { while (x > 0); return x; }", "", ["--time-limit", "1"], 1, /not finished after 1 s/],
  ["draws random numbers of its own", "({ x }) => x + 1e-3 * Math.random()", "", [], 1, /depends on the inputs alone/],
  [
    "keeps something between trials",
    "({ x }) => x + (count++ % 7) * 1e-6",
    "let count = 0;",
    [],
    1,
    /when it was repeated after others/,
  ],
  ["throws as it is loaded", "({ x }) => x", "throw new Error('boom');", [], 2, /boom/],
])(
  "a model that %s ends in words and its own exit code",
  LONG,
  async (name, evaluate, before, options, code, message) => {
    const study = studyWith(name.replaceAll(" ", "-"), evaluate, before);
    const { status, stdout, stderr } = await trialband("run", study, ...options);
    expect(stderr).toMatch(message);
    expect(status, stdout + stderr).toBe(code);
  },
);

test("a model that keeps to its inputs gives the same record with one thread and with two", LONG, async () => {
  const study = studyWith("plain", "({ x }) => x * x");
  const one = await trialbandJson("run", study, "--workers", "1");
  const two = await trialbandJson("run", study, "--workers", "2");
  expect(one.seal.results).toBe(two.seal.results);
  expect(one.provenance.modelSource).toContain("x * x");
});

async function trialbandJson(
  ...args: string[]
): Promise<{ seal: { results: string }; provenance: { modelSource: string } }> {
  const child = spawn(process.execPath, [join(root, "bin.mjs"), ...args, "--json"], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  let text = "";
  for await (const part of child.stdout) text += String(part);
  return JSON.parse(text) as { seal: { results: string }; provenance: { modelSource: string } };
}

test("an evaluation goes into a study with a model of its own, which is loaded in a thread too", LONG, async () => {
  const evaluated = (study: string): ReturnType<typeof trialband> =>
    trialband("immersion", "examples/survey/immersion-134.json", "--study", study, "--as", "immersion=x", "--run");
  const good = await evaluated(studyWith("evaluated", "({ x }) => x * x"));
  expect(good.stderr).toBe("");
  expect(good.stdout).toContain("Own (own)");
  const bad = await evaluated(studyWith("exits", "({ x }) => x", "(globalThis as any).process.exit(0);"));
  expect(bad).toMatchObject({ status: 1, stderr: expect.stringMatching(/exit code 0.*process\.exit/) });
});

test("an interrupt ends a model that never returns", async () => {
  const mark = join(folder, "looping");
  const write = `(globalThis as any).process.getBuiltinModule("node:fs").writeFileSync(${JSON.stringify(mark)}, "")`;
  const study = studyWith("loops", `({ x }) => { ${write}; while (x > -1); return x; }`);
  const child = spawn(process.execPath, [join(root, "bin.mjs"), "run", study], { stdio: "ignore" });
  const code = new Promise<number | null>((resolve) => child.on("close", resolve));
  while (!existsSync(mark)) await new Promise((resolve) => setTimeout(resolve, 20));
  child.kill("SIGINT");
  expect(await code).toBe(130);
});
