import { readdirSync } from "node:fs";
import { schemaText } from "../../../../server/record/json-schema.ts";
import { kindsOf } from "../../../../viewer/page/new-study/fields.ts";

/** The kinds of distribution with their fields, as the server publishes them. */
export const kinds = kindsOf(JSON.parse(schemaText()));

/** Every example study, by group and name. */
export const EXAMPLES = ["equation", "harrowfen", "platinum", "published", "verdicts"].flatMap((group) =>
  readdirSync(new URL(`../../../../examples/${group}`, import.meta.url))
    .filter((file) => file.endsWith(".json"))
    .map((file) => `${group}/${file.replace(/\.json$/, "")}`),
);
