import { Option } from "commander";
import { EVIDENCE_SCHEMAS, evidenceSchemaText, type EvidenceKind } from "../intake/evidence-schemas.ts";
import { recordSchemaText, schemaText } from "../record/json-schema.ts";
import type { CommandRegistration } from "./command.ts";

type Flags = Readonly<Partial<Record<"record" | EvidenceKind, boolean>>>;

const KINDS = Object.keys(EVIDENCE_SCHEMAS) as EvidenceKind[];
const OPTIONS: readonly (readonly [keyof Flags, string])[] = [
  ["record", "the schema of a record in place of a study's"],
  ["survey", "of the description of a bath survey"],
  ["readings", "of the description of comparison readings"],
  ["immersion", "of an immersion check"],
  ["certificate", "of a reference's certificate"],
];

export const schema: CommandRegistration = (program) => {
  const command = program
    .command("schema")
    .summary("print the JSON Schema of a study, a record, a survey, readings, an immersion check or a certificate")
    .description(
      "Prints the JSON Schema (draft 2020-12) that a study file follows, or with one of the options a record or the description of evidence. An editor that knows it completes and checks as one types.",
    );
  for (const [name, words] of OPTIONS)
    command.addOption(
      new Option(`--${name}`, words).conflicts(OPTIONS.map(([other]) => other).filter((other) => other !== name)),
    );
  command.action((flags: Flags) => {
    const kind = KINDS.find((name) => flags[name] === true);
    process.stdout.write(
      kind !== undefined ? evidenceSchemaText(kind) : flags.record === true ? recordSchemaText() : schemaText(),
    );
  });
};
