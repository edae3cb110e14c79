// Parts of a cause by input: they add up, and are the values that all subsets of the inputs give.
import { expect, test } from "vitest";
import type { Model } from "../../../engine/index.ts";
import { exampleStudies, modelOf, readExample, runExample } from "../../read-example.ts";
import { byInput, largestOf } from "./by-input.ts";
import { LONG } from "../../setup/long.ts";

interface Cause {
  readonly id: string;
  readonly measurand: string;
  readonly cause: "shape" | "degreesOfFreedom";
}
const addsUp = ({ id, measurand, cause }: Cause): void => {
  const document = readExample(id);
  const { found, byDefinition } = byInput(modelOf(document) as Model, document, measurand, cause);
  expect(found.length).toBeGreaterThan(1);
  found.forEach(({ move }, i) => {
    for (const end of [0, 1] as const)
      expect(Math.abs(move[end] - byDefinition[i]![end])).toBeLessThan(0.01 * largestOf(byDefinition));
  });
};
const ADDS_UP = "$id $cause: within 1 % of the greatest part that all subsets give";
test.each<Cause>([
  { id: "verdicts/curvature", measurand: "lethality", cause: "shape" },
  { id: "harrowfen/steriliser-134", measurand: "error", cause: "degreesOfFreedom" },
])(ADDS_UP, addsUp);
test.each<Cause>([
  { id: "published/block-calibrator", measurand: "temperature", cause: "shape" },
  { id: "published/end-gauge", measurand: "length", cause: "degreesOfFreedom" },
])(ADDS_UP, LONG, addsUp);

const ids = exampleStudies().flatMap(({ name, document }) =>
  document.model.endsWith(".ts") ? [] : [name.replace(".json", "")],
);

test.each(ids.filter((id) => id.startsWith("harrowfen/") || id.startsWith("verdicts/")))(
  "%s: the parts by input add up to their cause's",
  (id) => {
    for (const { explanation } of Object.values(runExample(id, { trials: 20_000, sweep: undefined }).measurands)) {
      for (const cause of ["shape", "degreesOfFreedom"] as const) {
        const { byInput: parts, shapley } = explanation!.parts[cause];
        if (parts === undefined || parts.length === 0) continue;
        for (const end of [0, 1] as const) {
          const sum = parts.reduce((total, part) => total + part.shapley[end], 0);
          expect(Math.abs(sum - shapley[end])).toBeLessThan(1e-12 * largestOf(parts.map((part) => part.shapley)));
        }
      }
    }
  },
);
