import { recordSchemaText, schemaText } from "../record/json-schema.ts";
import type { CommandRegistration } from "./command.ts";

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
