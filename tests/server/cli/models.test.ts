// A typed equation as a TypeScript file: it compiles under strict rules, and its runs have the figures of the equation.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import type { RunRecord } from "../../../engine/index.ts";
import { readExample } from "../../read-example.ts";
import { root, scratch, trialband } from "./trialband.ts";
import { LONG } from "../../setup/long.ts";

const files = scratch();
const example = join(root, "examples/equation/transmitter-72.json");

/** Two results, a name that TypeScript keeps for itself, and every kind of operation. */
const several = {
  title: "Two results",
  model: "equation",
  parameters: {
    equation:
      "new = t(R_X, R_0) − |a|^1.5/π\nclass = a^2·√(R_X) − min(a, −2)\nratio = new/(class + 3e-7)\nsum = new + class",
  },
  inputs: {
    R_X: { distribution: "rectangular", estimate: 127.7, halfWidth: 0.01 },
    R_0: { distribution: "constant", value: 100 },
    a: { distribution: "normal", estimate: 0.5, standardUncertainty: 0.01 },
  },
  trials: 20_000,
  seed: "two",
};

/** Complaints of the compiler about models' files, by the strictest of the usual rules. */
function complaints(paths: readonly string[]): string[] {
  const program = ts.createProgram(paths, {
    strict: true,
    noUnusedLocals: true,
    noUncheckedIndexedAccess: true,
    exactOptionalPropertyTypes: true,
    noEmit: true,
    skipLibCheck: true,
    types: [],
    target: ts.ScriptTarget.ES2023,
    module: ts.ModuleKind.NodeNext,
    moduleResolution: ts.ModuleResolutionKind.NodeNext,
    allowImportingTsExtensions: true,
    paths: { trialband: [join(root, "engine/index.ts")], "trialband/models": [join(root, "models/index.ts")] },
  });
  const sources = paths.map((file) => program.getSourceFile(file));
  return sources
    .flatMap((source) => [...program.getSyntacticDiagnostics(source), ...program.getSemanticDiagnostics(source)])
    .map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, "\n"));
}

const record = (path: string): RunRecord => JSON.parse(readFileSync(path, "utf8")) as RunRecord;
const figures = ({ measurands }: RunRecord): unknown =>
  Object.values(measurands).map(({ linear, monteCarlo, validation }) => [linear, monteCarlo, validation]);

const STUDIES: Readonly<Record<string, Record<string, unknown>>> = {
  transmitter: { ...readExample("equation/transmitter-72"), trials: 20_000 },
  several,
};

describe("trialband models --typescript", () => {
  const models: string[] = [];

  test.each(Object.entries(STUDIES))(
    "%s: runs to the figures of the equation, bit for bit",
    LONG,
    async (name, study) => {
      const typed = files.write(`${name}.json`, study);
      const model = files.path(`${name}.ts`);
      models.push(model);
      expect(await trialband("models", "--typescript", typed, "--out", model)).toMatchObject({ status: 0, stdout: "" });
      const { parameters: _, ...rest } = study;
      const written = files.write(`${name}-written.json`, { ...rest, model: `./${name}.ts` });
      const outs = [files.path("a.json"), files.path("b.json")] as const;
      expect((await trialband("run", typed, "--out", outs[0])).status).toBe(0);
      expect((await trialband("run", written, "--out", outs[1])).status).toBe(0);
      const [a, b] = [record(outs[0]), record(outs[1])];
      expect(b.model.id).not.toBe(a.model.id);
      expect(b.model.equation).toBe(a.model.equation);
      expect(b.model.fixedBits).toBe(true);
      expect(figures(b)).toEqual(figures(a));
    },
  );

  test("the files compile", LONG, () => {
    expect(models).toHaveLength(2);
    expect(complaints(models)).toEqual([]);
  });

  test("without --out the model is printed", async () => {
    const { status, stdout } = await trialband("models", "--typescript", example);
    expect(status).toBe(0);
    expect(stdout).toMatch(/^import \{ defineModel \} from "trialband";[^]*\}\);\n$/);
  });

  test.each([
    [
      ["--typescript", join(root, "examples/published/gauge-block.json")],
      /model: got "gauge-block"; expected "equation"/,
    ],
    [["--typescript", "nowhere.json"], /nowhere\.json/],
    [["--out", "model.ts"], /--out goes with --typescript/],
    [["--typescript", example, "--out", "/nowhere/model.ts"], /The model cannot be written to \/nowhere\/model\.ts/],
  ])("%j is refused", async (words, message) => {
    const { status, stdout, stderr } = await trialband("models", ...words);
    expect(status).toBeGreaterThan(0);
    expect(stdout).toBe("");
    expect(stderr.replace(/\s+/g, " ")).toMatch(message);
  });
});
