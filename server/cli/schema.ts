import { Option } from "commander";
import { EVIDENCE_SCHEMAS, evidenceSchemaText, type EvidenceKind } from "../intake/evidence-schemas.ts";
import { recordSchemaText, schemaText } from "../record/json-schema.ts";
import type { CommandRegistration } from "./command.ts";

type Flags = Readonly<Partial<Record<"record" | "api" | EvidenceKind, boolean>>>;

const KINDS = Object.keys(EVIDENCE_SCHEMAS) as EvidenceKind[];
const OPTIONS: readonly (readonly [keyof Flags, string])[] = [
  ["record", "the schema of a record in place of a study's"],
  ["survey", "of the description of a bath survey"],
  ["readings", "of the description of comparison readings"],
  ["immersion", "of an immersion check"],
  ["certificate", "of a reference's certificate"],
  ["calibration", "of a whole calibration"],
  ["sweep", "of a study over one or two quantities"],
  ["plan", "of a plan for a smaller uncertainty over a range"],
  ["history", "of the history of an instrument, a reference or a bath"],
  ["equivalence", "of a comparison between laboratories"],
  ["api", "the OpenAPI document of the interface of trialband serve"],
];

export const schema: CommandRegistration = (program) => {
  const command = program
    .command("schema")
    .summary("print the JSON Schema of a study, a record or evidence, or the OpenAPI document of the interface")
    .description(
      "Prints the JSON Schema (draft 2020-12) that a study file follows, or with one of the options a record or the description of evidence. An editor that knows it completes and checks as one types. With --api, the document that a client of the server is made from.",
    );
  for (const [name, words] of OPTIONS)
    command.addOption(
      new Option(`--${name}`, words).conflicts(OPTIONS.map(([other]) => other).filter((other) => other !== name)),
    );
  command.action(async (flags: Flags) => {
    if (flags.api === true) {
      // Every route and what they stand on: a schema waits for none of it.
      const [{ everyOperation }, { documentOf }] = await Promise.all([
        import("../routes/operations.ts"),
        import("../openapi/document.ts"),
      ]);
      process.stdout.write(`${JSON.stringify(documentOf(everyOperation()), null, 2)}\n`);
      return;
    }
    const kind = KINDS.find((name) => flags[name] === true);
    process.stdout.write(
      kind !== undefined ? evidenceSchemaText(kind) : flags.record === true ? recordSchemaText() : schemaText(),
    );
  });
};
