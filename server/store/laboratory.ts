import { createHash } from "node:crypto";
import type { Laboratory, LaboratoryDefaults } from "../../viewer/api/laboratory.ts";
import { Fault } from "../errors.ts";
import { tellAudit } from "./audit-trail.ts";
import type { Database } from "./database.ts";

/** What a laboratory that has stated nothing begins with. */
export const USUAL_DEFAULTS: LaboratoryDefaults = {
  name: "",
  coverage: "probability",
  probability: 0.95,
  factor: 2,
  digits: 2,
  language: "en",
  seed: "same",
};

/** What the laboratory's studies begin with. */
export function laboratoryOf(database: Database): Laboratory {
  const row = database.get<{ version: number; defaults: string }>(
    "SELECT version, defaults FROM laboratory ORDER BY version DESC LIMIT 1",
  );
  // What a later version knows and this one wrote not yet takes its usual value.
  return row === undefined
    ? { ...USUAL_DEFAULTS, version: 0 }
    : { ...USUAL_DEFAULTS, ...(JSON.parse(row.defaults) as LaboratoryDefaults), version: row.version };
}

/**
 * States what the laboratory's studies begin with; earlier versions stay.
 *
 * @param expected the version that the writer has seen; `null` writes over any
 * @throws {Fault} `changed-meanwhile`
 */
export function setLaboratory(
  database: Database,
  defaults: LaboratoryDefaults,
  expected: number | null,
  at: string,
  actor: string | null,
): Laboratory {
  return database.transaction(() => {
    const { version } = laboratoryOf(database);
    if (expected !== null && expected !== version)
      throw new Fault(
        "changed-meanwhile",
        `The laboratory's defaults have version ${version}; expected version ${expected}. Read them again before you write over them.`,
      );
    const kept = JSON.stringify(defaults);
    database.run("INSERT INTO laboratory VALUES (?, ?, ?)", [version + 1, kept, at]);
    const digest = createHash("sha256").update(kept).digest("hex");
    tellAudit(database, {
      at,
      actor,
      action: "laboratory set",
      subject: null,
      detail: { version: version + 1, defaults: digest },
    });
    return laboratoryOf(database);
  });
}
