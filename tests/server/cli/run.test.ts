// The command line as a person meets it.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { VERSION, type RunRecord } from "../../../engine/index.ts";
import { root, scratch, startTrialband, trialband } from "./trialband.ts";
import { LONG } from "../../setup/long.ts";

const { path, write: file } = scratch();

describe("run", () => {
  test("prints a summary: result, verdict, budget, cautions, how to repeat it", async () => {
    const { status, stdout } = await trialband("run", "examples/harrowfen/steriliser-134.json");
    expect(status).toBe(0);
    for (const part of [
      "e = (−0.049 ± 0.030) °C",
      "from the result's distribution",
      "e = (−0.049 ± 0.031) °C with k = 1.96, is not validated",
      "NOT VALIDATED",
      "δt_ax",
      "54.6 %",
      "Work safely",
      "To repeat: npx trialband run",
    ]) {
      // Figures and their units stay on one line.
      expect(stdout.replaceAll("\u00a0", " ")).toContain(part);
    }
    expect(stdout).not.toMatch(/\x1b|NaN|undefined|null/);
  });

  test("prints the same digits for any number of workers, twice", LONG, async () => {
    const outputs = new Set<string>();
    for (const workers of ["1", "2", "2"]) {
      const { stdout } = await trialband("run", "examples/harrowfen/freezer-minus-40.json", "--workers", workers);
      outputs.add(stdout);
    }
    expect(outputs.size).toBe(1);
  });

  test("--json prints the record, --out writes it, the flags override the study", async () => {
    const out = path("record.json");
    const { stdout, stderr, status } = await trialband(
      "run",
      "examples/published/mass-calibration.json",
      "--json",
      "--out",
      out,
      "--seed",
      "other",
      "--trials",
      "3e4",
    );
    expect(status).toBe(0);
    expect(stderr).toBe("");
    const record = JSON.parse(stdout) as RunRecord;
    expect(JSON.parse(readFileSync(out, "utf8"))).toEqual(record);
    expect(record.study).toMatchObject({ seed: "other", trials: 30_000 });
    const { linear, monteCarlo, validation } = record.measurands["deviation"]!;
    // Names that other programs rely on.
    expect(Object.keys(linear)).toEqual(
      expect.arrayContaining([
        "estimate",
        "standardUncertainty",
        "coverageFactor",
        "effectiveDegreesOfFreedom",
        "expandedUncertainty",
        "interval",
      ]),
    );
    expect(Object.keys(monteCarlo)).toEqual(
      expect.arrayContaining(["estimate", "standardUncertainty", "trials", "intervals"]),
    );
    expect(monteCarlo.intervals.symmetric).toHaveLength(2);
    expect(monteCarlo.intervals.shortest).toHaveLength(2);
    expect(validation).toMatchObject({ significantDigits: 1, numericalTolerance: 0.005, validated: false });
    expect(linear.effectiveDegreesOfFreedom).toBeNull();
  });

  test("--expect-validated ends with 3 if a budget is not validated", async () => {
    expect(
      (await trialband("run", "examples/published/additive-one-dominant.json", "--quiet", "--expect-validated")).status,
    ).toBe(3);
    expect(
      (await trialband("run", "examples/published/additive-normal.json", "--quiet", "--expect-validated")).status,
    ).toBe(0);
  });

  test(
    "a model and a study of one's own in TypeScript need no build step, and give the same figures",
    LONG,
    async () => {
      const run = async (ending: string): Promise<RunRecord> =>
        JSON.parse((await trialband("run", `examples/density/check-weight.${ending}`, "--json")).stdout) as RunRecord;
      const [json, ts] = [await run("json"), await run("ts")];
      expect(ts.measurands).toEqual(json.measurands);
      expect(json.model).toMatchObject({ id: "density", fixedBits: true });
    },
  );
});

describe("bad input ends with words and a code, never a stack", () => {
  const study = {
    title: "t",
    model: "./m.ts",
    inputs: { x: { distribution: "normal", estimate: 3, standardUncertainty: 1 } },
  };
  const modelText = (body: string): string =>
    `import { defineModel } from "trialband"; export default defineModel({ id: "m", title: "m", measurands: { y: { symbol: "y", meaning: "y", unit: "1" } }, inputs: { x: { symbol: "x", meaning: "x", unit: "1" } }, evaluate: ${body} });`;
  test.each<[string, () => string[], number, RegExp]>([
    ["no file", () => ["run", "none.json"], 2, /There is no file none\.json/],
    ["not JSON", () => ["run", file("a.json", '{\n  "title": x\n}')], 2, /is not JSON \(line 2, column 12\)/],
    [
      "an unknown model",
      () => ["run", file("b.json", { ...study, model: "nothing" })],
      2,
      /model: got "nothing"; expected one of bath-comparison/,
    ],
    [
      "a model file that is missing",
      () => ["run", file("c.json", { ...study, model: "./none.ts" })],
      2,
      /There is no file .*none\.ts/,
    ],
    [
      "a model that does not compile",
      () => (file("m.ts", "export default {"), ["run", file("d.json", study)]),
      2,
      /cannot be compiled/,
    ],
    [
      "a module without a model",
      () => (file("m.ts", "export const x = 1;"), ["run", file("e.json", study)]),
      2,
      /export default: got the exports x; expected a model/,
    ],
    [
      "a model that throws",
      () => (file("m.ts", modelText("() => { throw new Error('boom'); }")), ["run", file("f.json", study)]),
      1,
      /boom/,
    ],
    [
      "a model that is not finite",
      () => (file("m.ts", modelText("({ x }) => Math.sqrt(x)")), ["run", file("g.json", study)]),
      1,
      /returned NaN for y at trial \d+ \(x = -/,
    ],
    ["workers out of range", () => ["run", "x.json", "--workers", "0"], 2, /whole number from 1 to 64/],
    ["trials that are no number", () => ["run", "x.json", "--trials", "many"], 2, /1000000, or adaptive/],
    [
      "a folder that is missing for --out",
      () => ["run", "examples/published/additive-normal.json", "--trials", "4000", "--out", path("none/x.json")],
      1,
      /cannot be written/,
    ],
    [
      "a folder for a study",
      () => ["run", "examples/published"],
      2,
      /examples\/published is a folder; expected a file/,
    ],
    [
      "a folder for a record",
      () => ["verify", "--key", "examples", "package.json"],
      2,
      /examples is a folder; expected a file/,
    ],
    [
      "a folder for --out",
      () => ["run", "examples/published/additive-normal.json", "--trials", "4000", "--out", "examples"],
      1,
      /cannot be written to examples: it is a folder/,
    ],
    ["an unknown command", () => ["bogus"], 2, /unknown command/],
    ["no study", () => ["run"], 2, /missing required argument/],
  ])("%s", async (_, args, code, message) => {
    const { status, stderr } = await trialband(...args());
    expect(stderr).toMatch(message);
    expect(stderr).not.toMatch(/\n\s+at /);
    expect(status).toBe(code);
  });

  test("a model that uses Math.exp gets a remark", async () => {
    file("m.ts", modelText("({ x }) => Math.exp(x / 10)"));
    const { stdout } = await trialband("run", file("h.json", { ...study, trials: 4000 }));
    expect(stdout).toMatch(/reproduces\s+exactly,\s+bit\s+for\s+bit,\s+only\s+on\s+the\s+same\s+engine\s+version/);
  });
});

test("help and version", async () => {
  expect((await trialband("--version")).stdout.trim()).toBe(
    JSON.parse(readFileSync(join(root, "package.json"), "utf8")).version,
  );
  expect((await trialband("--help")).stdout).toContain("Usage: trialband");
  expect((await trialband("run", "--help")).stdout).toContain("Exit codes:");
  expect((await trialband("serve", "--help")).stdout).toContain("Ctrl+C");
  expect((await trialband("models")).stdout).toContain("bath-comparison");
  expect((await trialband("models", "bath-comparison")).stdout).toContain("δt_ax");
  expect((await trialband("models", "none")).status).toBe(2);
});

test("started in a process of its own: what it prints, where, and its exit codes", () => {
  const study = "examples/published/additive-one-dominant.json";
  const { status, stdout, stderr } = startTrialband("run", study, "--json", "--expect-validated");
  expect({ status, stderr }).toEqual({ status: 3, stderr: "" });
  expect((JSON.parse(stdout) as RunRecord).model.id).toBe("additive");
  const bad = startTrialband("run", "none.json");
  expect(bad).toMatchObject({ status: 2, stdout: "" });
  expect(bad.stderr).toMatch(/^trialband: There is no file none\.json/);
  expect(startTrialband("--version")).toMatchObject({ status: 0, stdout: `${VERSION}\n` });
});
