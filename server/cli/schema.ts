import * as z from "zod";
import { studySchema } from "../../engine/index.ts";
import { recordSchema } from "../record/schema.ts";
import type { CommandRegistration } from "./command.ts";

/** The JSON Schema of a study, for editors that complete and check as one types. */
export const schemaText = (): string =>
  `${JSON.stringify({ title: "Trialband study", ...z.toJSONSchema(studySchema, { io: "input" }) }, null, 2)}\n`;

/** The JSON Schema of a record. */
const recordSchemaText = (): string =>
  `${JSON.stringify({ title: "Trialband record", ...z.toJSONSchema(recordSchema, { io: "input" }) }, null, 2)}\n`;

export const schema: CommandRegistration = (program) => {
  program
    .command("schema")
    .option("--record", "the schema of a record in place of a study's")
    .summary("print the JSON Schema of a study, or of a record")
    .description("Prints the JSON Schema (draft 2020-12) that a study file, or a record, follows.")
    .action(
      ({ record }: { readonly record?: boolean }) =>
        void process.stdout.write(record ? recordSchemaText() : schemaText()),
    );
};
