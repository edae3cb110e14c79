import type { Model } from "../../engine/index.ts";
import { scriptOf } from "./script.ts";
import type { CheckedEquation } from "./equation-model.ts";

/**
 * A TypeScript file with the same model, for `Save as a TypeScript model`: the same operations in the same order, so that
 * its runs reproduce exactly, bit for bit.
 *
 * @param title of the model; its words make the id and the file's name
 */
export function typescriptModel(
  { equations, measurands }: Extract<CheckedEquation, { ok: true }>,
  model: Model,
  title: string,
): { readonly file: string; readonly text: string } {
  const id = idOf(title);
  const between = new Set(equations.map(({ name }) => name));
  const local = (name: string): string => `${name}_`;
  const spelling = {
    quantity: (name: string) => (between.has(name) ? local(name) : `x.${name}`),
    called: (name: string) => `algebra.${name}`,
  };
  const lines = equations.map(
    ({ name, expression }) => `    const ${local(name)} = ${scriptOf(expression, spelling)};`,
  );
  const results =
    measurands.length === 1
      ? local(measurands[0]!)
      : `{ ${measurands.map((name) => `${name}: ${local(name)}`).join(", ")} }`;
  const quantities = (part: Model["inputs"]): string[] =>
    Object.entries(part).map(([name, quantity]) => `    ${name}: ${JSON.stringify(quantity)},`);
  const text = [
    `import { defineModel } from "trialband";`,
    ...(lines.some((line) => line.includes("algebra."))
      ? [
          `import { algebra } from "trialband/models";`,
          ``,
          `// The functions of algebra reproduce exactly, bit for bit, in every JavaScript engine.`,
        ]
      : [``]),
    `export default defineModel({`,
    `  id: ${JSON.stringify(id)},`,
    `  title: ${JSON.stringify(title.trim() === "" ? model.title : title)},`,
    `  equation: ${JSON.stringify(model.equation ?? "")},`,
    `  measurands: {`,
    ...quantities(model.measurands),
    `  },`,
    `  inputs: {`,
    ...quantities(model.inputs),
    `  },`,
    `  evaluate: (x) => {`,
    ...lines,
    `    return ${results};`,
    `  },`,
    `});`,
    ``,
  ].join("\n");
  return { file: `${id}.ts`, text };
}

/** Letters and figures of a title, joined by hyphens, as ids of models are written. */
const idOf = (title: string): string =>
  title
    .normalize("NFKD")
    .replace(/[^\x20-\x7e]/g, "")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .slice(0, 60)
    .replace(/^-+|-+$/g, "") || "typed-equation";
