import { readFileSync } from "node:fs";
import * as z from "zod";
import { expect, test } from "vitest";
import { recordSchema } from "../../../engine/record/index.ts";

test("a record has a published JSON Schema, the one its definition generates", () => {
  const published = JSON.parse(readFileSync(new URL("../../../examples/record.schema.json", import.meta.url), "utf8"));
  expect(published).toEqual({ title: "Trialband record", ...z.toJSONSchema(recordSchema, { io: "input" }) });
});
