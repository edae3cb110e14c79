// @module-tag long
// Parts of a cause by input, of every example with at most ten such inputs: the values that all subsets give.
import { expect, test } from "vitest";
import type { Model } from "../../../engine/index.ts";
import { exampleStudies, modelOf, runExample } from "../../read-example.ts";
import { byInput, largestOf } from "./by-input.ts";

const MOST = 10;

const cases = exampleStudies().flatMap(({ name, document }) => {
  const id = name.replace(".json", "");
  if (document.model.endsWith(".ts")) return [];
  const { measurands } = runExample(id, { trials: 20_000, sweep: undefined });
  return Object.entries(measurands).flatMap(([measurand, { explanation }]) =>
    (["shape", "degreesOfFreedom"] as const).flatMap((cause) => {
      const count = explanation?.parts[cause].byInput?.length ?? 0;
      return count > 1 && count <= MOST ? [{ id, measurand, cause, document }] : [];
    }),
  );
});

test.each(cases)("$id $measurand, $cause: within 3 % of the greatest part", ({ measurand, cause, document }) => {
  const { found, byDefinition, standardUncertainty } = byInput(modelOf(document) as Model, document, measurand, cause);
  if (byDefinition.length < 2) return;
  // What three and more inputs do together is shared out by size: 2.4 % where three rectangular terms make most of u. The
  // endpoints themselves are computed to 10⁻⁶ u.
  const latitude = Math.max(0.03 * largestOf(byDefinition), 2e-6 * standardUncertainty);
  found.forEach(({ move }, i) => {
    for (const end of [0, 1] as const) expect(Math.abs(move[end] - byDefinition[i]![end])).toBeLessThan(latitude);
  });
});
