// Sixty of them: random-studies.long.test.ts.
import { expect, test } from "vitest";
import { defineModel, propagate } from "../../engine/index.ts";
import { check, checkRandomStudies } from "./random-studies.ts";
import { LONG } from "../setup/long.ts";

test("twelve random studies: nothing is printed that is no number, and nothing contradicts itself", LONG, () =>
  expect(checkRandomStudies(11, 12)).toBeGreaterThan(2),
);

test.each([0, 7, 1e-320])("a result that is always %d is shown in every output", (value) => {
  const quantity = { symbol: "q", meaning: "quantity", unit: "1" };
  const still = defineModel({
    id: "still",
    title: "still",
    measurands: { y: quantity },
    inputs: { a: quantity },
    evaluate: () => value,
  });
  const a = { distribution: "normal", estimate: 0, standardUncertainty: 1 } as const;
  check(propagate(still, { title: "t", model: "still", trials: 10_000, inputs: { a } }));
});
