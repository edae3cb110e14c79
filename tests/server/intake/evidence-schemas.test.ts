import { Ajv2020 } from "ajv/dist/2020.js";
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { EVIDENCE_SCHEMAS, evidenceSchemaText, type EvidenceKind } from "../../../server/intake/evidence-schemas.ts";
import { trialband } from "../cli/trialband.ts";

const example = (name: string): string => readFileSync(new URL(`../../../examples/${name}`, import.meta.url), "utf8");

describe.each(Object.keys(EVIDENCE_SCHEMAS) as EvidenceKind[])("the published JSON Schema of %s", (kind) => {
  test("is the one the definition generates, and the one the command prints", async () => {
    expect(example(`${kind}.schema.json`)).toBe(evidenceSchemaText(kind));
    expect((await trialband("schema", `--${kind}`)).stdout).toBe(evidenceSchemaText(kind));
  });

  // Held against the examples by another library, which knows JSON Schema and nothing of this project.
  test.each(
    {
      survey: ["survey/pasteuriser-72", "survey/cold-store-4", "survey/freezer-minus-40", "survey/steriliser-134"],
      readings: ["survey/readings-72"],
      immersion: ["survey/immersion-134"],
      certificate: ["survey/reference-HR-02"],
      calibration: ["calibration/two-probes"],
      sweep: ["range/grid", "range/capability"],
      plan: ["range/plan"],
      history: ["history/reference-HR-02", "history/glycol-bath"],
      equivalence: ["interlaboratory/bath-72", "interlaboratory/bath-minus-40"],
    }[kind],
  )("takes the example %s, and not with a field that it does not know", (name) => {
    const validate = new Ajv2020({ strict: false }).compile(JSON.parse(example(`${kind}.schema.json`)) as object);
    const document = JSON.parse(example(`${name}.json`)) as object;
    expect(validate(document), JSON.stringify(validate.errors)).toBe(true);
    expect(validate({ ...document, colour: "blue" })).toBe(false);
  });
});

test("two schemas at once are refused", async () => {
  const { status, stderr } = await trialband("schema", "--survey", "--readings");
  expect(status).toBe(2);
  expect(stderr).toContain("--survey");
});
