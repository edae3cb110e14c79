import * as z from "zod";
import { studySchema } from "../../engine/internal.ts";
import { recordSchema } from "../../engine/record/index.ts";

/** The JSON Schema of a study, for editors that complete and check as one types. */
export const schemaText = (): string =>
  `${JSON.stringify({ title: "Trialband study", ...z.toJSONSchema(studySchema, { io: "input" }) }, null, 2)}\n`;

/** The JSON Schema of a record. */
export const recordSchemaText = (): string =>
  `${JSON.stringify({ title: "Trialband record", ...z.toJSONSchema(recordSchema, { io: "input" }) }, null, 2)}\n`;
