import * as z from "zod";
import { distributionTitles } from "../../engine/distributions/titles.ts";
import { describe, expect, test } from "vitest";
import { distributionKinds, studySchema } from "../../engine/internal.ts";
import { distributionContract, notAsked, upperTails } from "./distribution.ts";
import { examples } from "./distribution-examples.ts";

describe("every registered kind", () => {
  test.each([...distributionKinds.keys()])("%s has an example here", (kind) => {
    expect(examples.filter(({ statement }) => statement.distribution === kind).length).toBeGreaterThan(0);
  });

  test("has a title, and a place in the JSON Schema of a study with every field described", () => {
    const text = JSON.stringify(z.toJSONSchema(studySchema, { io: "input" }));
    const schema = JSON.parse(text);
    const union = schema.properties.inputs.additionalProperties;
    const options = (union.oneOf ?? union.anyOf ?? schema.$defs[union.$ref.split("/").pop()].oneOf) as {
      properties: Record<string, { const?: string; description?: string }>;
    }[];
    const kinds = options.map(({ properties }) => properties["distribution"]!.const);
    expect(kinds.toSorted()).toEqual([...distributionKinds.keys()].toSorted());
    for (const { properties } of options) {
      for (const [name, field] of Object.entries(properties)) {
        if (name !== "distribution")
          expect(field.description, `${properties["distribution"]!.const}.${name}`).toBeTruthy();
      }
    }
    expect(Object.keys(distributionTitles).toSorted()).toEqual(kinds.toSorted());
  });
});

for (const example of examples) distributionContract(example);

test("the contract leaves out no more than what does not exist", () => {
  expect(notAsked).toEqual({ moments: 2, spreadOfSample: 3 });
  // A kind without long tails needs no upper tail of its own: 1 − F keeps its digits.
  expect([...upperTails]).toEqual(
    expect.arrayContaining(["normal", "t", "exponential", "gamma", "log-normal", "truncated-normal"]),
  );
});
