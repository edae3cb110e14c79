// What a person reads of a model in a file of their own that does not work, and of names that are not quite right. Needs dist/.
import { describe, expect, test } from "vitest";
import { LONG } from "../../setup/long.ts";
import { scratch, trialband } from "./trialband.ts";

const files = scratch();
const statement = { distribution: "normal", estimate: 1, standardUncertainty: 0.1 };

/** A study of inputs a and b with a model whose file has this text. */
function studyOf(name: string, text: string): string {
  files.write(`${name}.ts`, text);
  return files.write(
    `${name}.json`,
    JSON.stringify({ title: name, model: `./${name}.ts`, inputs: { a: statement, b: statement }, trials: 20_000 }),
  );
}

const declared = (evaluate: string, before = ""): string => `import { defineModel } from "trialband";
${before}
const q = { symbol: "q", meaning: "q", unit: "1" };
export default defineModel({ id: "own", title: "Own", inputs: { a: q, b: q }, measurands: { y: q }, evaluate: ${evaluate} });
`;

interface Misfit {
  readonly name: string;
  readonly text: string;
  readonly status: number;
  readonly says: RegExp;
}

describe("a model in a file of one's own", () => {
  test(
    "it may import a helper and a JSON file; what a helper throws has its file and line, the trial and the inputs",
    LONG,
    async () => {
      files.write("table.json", '{ "highest": 1.3 }');
      files.write(
        "look-up.ts",
        `import table from "./table.json";
export function lookUp(x: number): number {
  if (x > table.highest) throw new RangeError("beyond the table");
  return x;
}
`,
      );
      const study = studyOf(
        "throws",
        declared("({ a, b }) => lookUp(a) + b", 'import { lookUp } from "./look-up.ts";'),
      );
      const { status, stderr } = await trialband("run", study);
      expect(status).toBe(1);
      expect(stderr.replace(/\s+/g, " ")).toMatch(
        /model own threw "beyond the table" at trial \d+ \(a = 1\.3\d*, b = [\d.]+\); expected .*; thrown at .*look-up\.ts:3:\d+/,
      );
    },
  );

  /** Runs a study of a model with this text. */
  const isSaid = async ({ name, text, status, says }: Misfit): Promise<void> => {
    const finished = await trialband("run", studyOf(name, text));
    expect(finished.stderr.replace(/\s+/g, " ")).toMatch(says);
    expect(finished.status).toBe(status);
  };

  // One of each way a model can fail: at the estimates, by what it imports, and in the compiler.
  test.each<Misfit>([
    {
      name: "undeclared",
      text: declared("({ a, bb }) => a * bb"),
      status: 1,
      says: /returned NaN for y at the estimates .*it reads bb, which is no input: did you mean b\?/,
    },
    {
      name: "node",
      text: 'import fs from "node:fs";\nexport default fs;\n',
      status: 2,
      says: /node\.ts:1:\d+: got the import "node:fs"; expected no module of Node\.js/,
    },
    {
      name: "broken",
      text: "export default {\n",
      status: 2,
      says: /broken\.ts:2:1: got Expected identifier .*; expected TypeScript or JavaScript that compiles/,
    },
  ])("$name", isSaid);

  test.each<Misfit>([
    {
      name: "promise",
      text: declared("async ({ a }) => a"),
      status: 1,
      says: /returned a Promise \(evaluate must return its value at once/,
    },
    { name: "text", text: declared("({ a }) => a.toFixed(2)"), status: 1, says: /returned "1\.00", a string, for y/ },
    {
      name: "none",
      text: "export const y = 1;\n",
      status: 2,
      says: /exports no model.* export default: got the exports y; expected a model as the default export/,
    },
    {
      name: "another",
      text: "export default 3;\n",
      status: 2,
      says: /export default: got a default export that is 3; expected a model/,
    },
    {
      name: "loading",
      text: '\nthrow new Error("no licence");\n',
      status: 2,
      says: /failed when it was loaded: no licence; thrown at .*loading\.ts:2:7/,
    },
    {
      name: "helper",
      text: 'import "./no-such.ts";\n',
      status: 2,
      says: /helper\.ts:1:\d+: got the import "\.\/no-such\.ts"; expected a file that is there/,
    },
    {
      name: "foreign",
      text: 'import "no-such-package";\n',
      status: 2,
      says: /got the import "no-such-package"; expected an installed package/,
    },
  ])("$name", LONG, isSaid);
});

describe("names that are not quite right", () => {
  const study = (more: object): string =>
    files.write(
      "names.json",
      JSON.stringify({
        title: "t",
        model: "additive",
        parameters: { coefficients: { a: 1 } },
        inputs: { a: statement },
        ...more,
      }),
    );

  test.each([
    { more: { trails: 9 }, says: "trails: got 9; expected nothing: there is no such field here; did you mean trials?" },
    {
      more: { coverage: { probabilty: 0.95 } },
      says: "coverage.probabilty: got 0.95; expected nothing: there is no such field here; did you mean probability?",
    },
    {
      more: { inputs: { a: { ...statement, esitmate: 1 } } },
      says: "inputs.a.esitmate: got 1; expected nothing: there is no such field here; did you mean estimate?",
    },
    {
      more: { inputs: { a: { ...statement, distribution: "uniform" } } },
      says: '"uniform" is called "rectangular" here, as in the standards',
    },
    {
      more: { inputs: { a: { ...statement, distribution: "Gaussian" } } },
      says: '"Gaussian" is called "normal" here, as in the standards',
    },
    { more: { inputs: { a: { ...statement, distribution: "rectangualr" } } }, says: 'did you mean "rectangular"?' },
    { more: { inputs: { a: statement, aa: statement } }, says: "has no such input, only a; did you mean a?" },
    { more: { model: "aditive" }, says: "(did you mean additive?)" },
  ])("$says", async ({ more, says }) => {
    const { status, stderr } = await trialband("run", study(more));
    expect(stderr.replace(/\s+/g, " ")).toContain(says);
    expect(status).toBe(2);
  });
});

describe("a family's inputs", () => {
  test("for an example, where no parameters are stated", async () => {
    const { stdout, status } = await trialband("models", "probe-fit");
    expect(status).toBe(0);
    expect(stdout).toContain('For example with the parameters {"temperatures":[-40,4,72,134]}');
    expect(stdout).toMatch(/^ {2}resistance4 +R_4 +Ω +resistance of the probe in bath 4/m);
    expect(stdout).toMatch(/^ {2}lackOfFit/m);
  });

  test("for the parameters stated, as JSON or by a study", async () => {
    const typed = await trialband("models", "sprt-fixed-points", "--parameters", '{"subRange": "5"}');
    expect(typed.stdout).toContain('With the parameters {"subRange":"5"}');
    expect(typed.stdout).toMatch(/ratio1_Hg/);
    const study = await trialband("models", "probe-fit", "--parameters", "examples/platinum/probe-fit-hf-021.json");
    expect(study.stdout).toContain('With the parameters {"temperatures":[-40,4,72,134]}');
  });

  test.each([
    {
      args: ["probe-fit", "--parameters", '{"temperatures": [9000]}'],
      says: /parameters\.temperatures\.0: got 9000; expected a temperature/,
    },
    { args: ["probe-fit", "--parameters", '{"temperatures"'], says: /--parameters is not JSON/ },
    {
      args: ["probe-fit", "--parameters", "examples/harrowfen/cold-store-4.json"],
      says: /states no parameters\..*got nothing; expected an object/,
    },
    { args: ["--parameters", "{}"], says: /--parameters goes with the id of a family/ },
    { args: ["no-such"], says: /There is no model "no-such"/ },
  ])("$args", async ({ args, says }) => {
    const { stderr, status } = await trialband("models", ...args);
    expect(stderr.replace(/\s+/g, " ")).toMatch(says);
    expect(status).toBe(2);
  });
});
