import * as z from "zod";
import { studySchema } from "../../engine/index.ts";
import type { CommandRegistration } from "./command.ts";

/** The JSON Schema of a study, for editors that complete and check as one types. */
export const schemaText = (): string =>
  `${JSON.stringify({ title: "Trialband study", ...z.toJSONSchema(studySchema, { io: "input" }) }, null, 2)}\n`;

export const schema: CommandRegistration = (program) => {
  program
    .command("schema")
    .summary("print the JSON Schema of a study")
    .description("Prints the JSON Schema (draft 2020-12) that a study file follows.")
    .action(() => void process.stdout.write(schemaText()));
};
