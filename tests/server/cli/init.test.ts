// A folder of one's own, and the check of what is in it, as a person would type them. Needs dist/.
import { existsSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { LONG } from "../../setup/long.ts";
import { scratch, trialband } from "./trialband.ts";

const files = scratch();

describe("init", () => {
  test("writes a study and a model, and a way to this installation that no registry is asked for", async () => {
    const folder = files.path("own");
    const { status, stdout } = await trialband("init", folder);
    expect(status).toBe(0);
    expect(stdout).toContain("npx --no trialband run density.json");
    const manifest = JSON.parse(readFileSync(`${folder}/package.json`, "utf8")) as {
      readonly dependencies: { readonly trialband: string };
    };
    expect(manifest.dependencies.trialband).toMatch(/^file:/);
    const study = JSON.parse(readFileSync(`${folder}/density.json`, "utf8")) as { readonly model: string };
    expect(existsSync(`${folder}/${study.model}`)).toBe(true);
  });

  test("the study that it writes can be run", LONG, async () => {
    const folder = files.path("run");
    await trialband("init", folder);
    const run = await trialband("run", `${folder}/density.json`, "--trials", "20000");
    expect(run.status).toBe(0);
    expect(run.stdout).toContain("density of the body");
  });

  test("changes nothing that is there", async () => {
    const taken = files.path("taken");
    await trialband("init", taken);
    const before = readFileSync(`${taken}/density.ts`, "utf8");
    const { status, stderr } = await trialband("init", taken);
    expect(status).toBe(1);
    expect(stderr).toMatch(/has tsconfig\.json, density\.ts, density\.json already\.\s+Nothing was written/);
    expect(readFileSync(`${taken}/density.ts`, "utf8")).toBe(before);
    expect(existsSync(`${taken}/.trialband`)).toBe(false);
  });
});

describe("check", () => {
  test("an input that is not declared is told by the compiler, with its line", LONG, async () => {
    const model = files.write(
      "typed.ts",
      `import { defineModel } from "trialband";
const q = { symbol: "q", meaning: "q", unit: "1" };
export default defineModel({
  id: "typed",
  title: "Typed",
  inputs: { a: q },
  measurands: { y: q },
  evaluate: ({ a, bb }) => a * bb,
});
`,
    );
    const { status, stderr } = await trialband("check", model);
    expect(status).toBe(2);
    expect(stderr).toMatch(/typed\.ts:8:\d+: Property 'bb' does not exist/);
  });

  test("a study of a registered model is checked without a run", async () => {
    const { status, stdout } = await trialband("check", "examples/verdicts/kept.json");
    expect(status).toBe(0);
    expect(stdout).toMatch(/The study ".+" can be run\./);
    const wrong = await trialband("check", files.write("wrong.json", { title: "t", model: "additive", inputs: {} }));
    expect(wrong.status).toBe(2);
  });
});
