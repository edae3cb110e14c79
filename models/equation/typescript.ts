import type { Model } from "../../engine/index.ts";
import { scriptOf } from "./script.ts";
import type { CheckedEquation } from "./equation-model.ts";

/**
 * The text of a TypeScript file with the same model, for `Save as a TypeScript model`: the same operations in the same
 * order, so that its runs reproduce exactly, bit for bit.
 *
 * @param id in kebab-case, for the new model
 */
export function typescriptModel(
  { equations, measurands }: Extract<CheckedEquation, { ok: true }>,
  model: Model,
  id: string,
  title: string,
): string {
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
  return [
    `import { defineModel } from "trialband";`,
    `import { algebra } from "trialband/models";`,
    ``,
    `// The functions of algebra reproduce exactly, bit for bit, in every JavaScript engine.`,
    `export default defineModel({`,
    `  id: ${JSON.stringify(id)},`,
    `  title: ${JSON.stringify(title)},`,
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
}
