import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { prepare, readStudy, type Model } from "../../../engine/index.ts";
import { openTrialColumns } from "../../../engine/internal.ts";
import { additive, loadEquationReader, models, typedEquation, type ScriptedModel } from "../../../models/index.ts";
import { programOf } from "../../../engine/native/programs.ts";
import { readStored, storedText, type BuiltPrograms } from "../../../server/programs/stored.ts";
import { makePrograms } from "../../../server/shelves/build-programs.ts";
import { LONG } from "../../setup/long.ts";
import { root } from "../../sources.ts";
import { compared, type Compared } from "../programs/compared.ts";
import { importByHost } from "../programs/paths.ts";
import { NAMES, randomly, randomTrials } from "../programs/random-models.ts";

let made: BuiltPrograms;
let built: BuiltPrograms;
beforeAll(async () => {
  made = await makePrograms(importByHost);
  built = readStored(storedText(made, "these"), "these")!;
  await loadEquationReader();
});

const plain = models.filter((model): model is Model => !("build" in model));

/** The first example of a model. */
function exampleOf(id: string): object {
  const files = readdirSync(join(root, "examples"), { recursive: true, encoding: "utf8" });
  for (const file of files.filter((name) => name.endsWith(".json")).toSorted()) {
    const document = JSON.parse(readFileSync(join(root, "examples", file), "utf8")) as { readonly model?: unknown };
    if (document.model === id) return document;
  }
  throw new Error(`no example of ${id}`);
}

describe("programs that a build keeps", () => {
  test("are those of every registered model, of the parts of families, and of every function of equations", () => {
    expect(Object.keys(built.models)).toEqual(
      models.flatMap((model) => ("build" in model ? (model.parts ?? []) : [model])).map(({ id }) => id),
    );
    expect(Object.keys(built.algebra.places)).toEqual(
      expect.arrayContaining(["t/2", "t/4", "t/5", "R/5", "t_90/1", "W_r/1", "exp/1", "pow/2", "tan/1", "arctan/1"]),
    );
  });

  test("come back from their file as they were, and not for other sources", () => {
    expect(built.algebra.tables).toEqual(made.algebra.tables);
    expect(readStored(storedText(made, "these"), "others")).toBeNull();
  });

  test.each(plain.map(({ id }) => ({ id })))("$id gives the values of its function, bit for bit", ({ id }) => {
    const model = plain.find((found) => found.id === id)!;
    const prepared = prepare(model, readStudy(exampleOf(id)));
    const count = 1001;
    const { inputs } = openTrialColumns(prepared.source)(0, count);
    const trials = Array.from({ length: count }, (_, t) => inputs.map((column) => column[t]!));
    expect(compared(prepared.model, built.models[id]!, trials)).toEqual({
      equal: count,
      left: 0,
      different: 0,
      told: true,
    });
  });

  test("a sum of terms is one as well", () => {
    const model = additive.build({ coefficients: { a: 1, b: -0.3, c: 1e-7 } });
    const found = compared(model, programOf(model.evaluate)!.program()!, randomTrials(randomly("sum"), 301));
    expect(found).toEqual({ equal: 301, left: 0, different: 0, told: true });
  });
});

/** A random equation of a, b and c, in the terms of the reader of equations. */
function randomEquation(random: () => number): string {
  const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)]!;
  const functions = [
    "exp",
    "ln",
    "lg",
    "sqrt",
    "cbrt",
    "abs",
    "sgn",
    "sin",
    "cos",
    "tan",
    "arcsin",
    "arccos",
    "arctan",
    "sinh",
    "cosh",
    "tanh",
  ];
  const value = (depth: number): string => {
    if (depth === 0 || random() < 0.1) return random() < 0.8 ? pick(NAMES) : pick(["2", "0.5", "1e3", "0"]);
    const part = (): string => value(depth - 1);
    const kind = random();
    if (kind < 0.5) return `(${part()} ${pick(["+", "-", "*", "/"])} ${part()})`;
    if (kind < 0.6) return `(${part()})^${pick(["2", "3", "4", "0.5", "-1", `(${part()})`])}`;
    if (kind < 0.65) return `(-${part()})`;
    if (kind < 0.72) return `${pick(["min", "max"])}(${part()}, ${part()})`;
    return `${pick(functions)}(${part()})`;
  };
  return `p = ${value(3)} + a\ny = p * ${value(3)} + 0 * (a + b + c)\nz = p + ${value(2)}`;
}

describe("typed equations as programs", () => {
  function compare(equation: string, random: () => number): Compared {
    const model = typedEquation.build({ equation }) as ScriptedModel;
    const order = Object.keys(model.inputs).map((name) => NAMES.indexOf(name as (typeof NAMES)[number]));
    const trials = randomTrials(random, 301).map((values) => order.map((at) => values[at]!));
    const found = compared(model, model.program(built.algebra)!, trials)!;
    expect(found, equation).toMatchObject({ different: 0, told: true });
    return found;
  }

  /** @returns the part of trials that were left to the plain path */
  function check(seed: string, count: number): number {
    const random = randomly(seed);
    const found = Array.from({ length: count }, () => compare(randomEquation(random), random));
    const left = found.reduce((sum, one) => sum + one.left, 0);
    return left / (301 * count);
  }

  test.each([
    "y = t(100 + 50 * a, 100)",
    "y = t(100 + 50 * a, 100 + b, 3.9e-3, -5.8e-7)",
    "y = t(100 + 50 * a, 100 + b, 3.9e-3, -5.8e-7, -4e-12)",
    "y = R(100 * a, 100 + b)",
    "y = R(100 * a, 100 + b, 3.9e-3, -5.8e-7)",
    "y = R(100 * a, 100 + b, 3.9e-3, -5.8e-7, -4e-12)",
    "y = t_90(a)",
    "y = W_r(100 * a)",
  ])("%s gives its values, bit for bit", (equation) =>
    expect(compare(equation, randomly(equation)).left).toBeLessThan(15),
  );

  test("give the values of their trees, bit for bit", () => expect(check("equations", 40)).toBeLessThan(0.05));

  test("400 of them", LONG, () => expect(check("more equations", 400)).toBeLessThan(0.05));

  test("one that calls what is no program has none", () => {
    const model = typedEquation.build({ equation: "y = exp(a)" }) as ScriptedModel;
    expect(model.program({ places: {}, functions: [], tables: [] })).toBeNull();
  });
});
