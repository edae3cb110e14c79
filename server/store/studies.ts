import type { Study } from "../../engine/index.ts";
import { Fault } from "../errors.ts";
import { digestOf } from "../canonical.ts";
import type { Database } from "./database.ts";
import { parseKept } from "./kept-json.ts";

export interface KeptStudy {
  readonly digest: string;
  /** Of its series: a listed study, or a study of the laboratory's own. From 1. */
  readonly version: number;
}

/** What a study is a version of. */
export type Series = { readonly listed: string } | { readonly own: string };

/** Keeps a study as it is run, once, and finds its version; a content that is new to the series is its next version. */
export function keepStudy(database: Database, study: Study, series: Series, at: string): KeptStudy {
  return database.transaction(() => {
    const digest = digestToKeep(study);
    database.run("INSERT INTO studies VALUES (?, ?) ON CONFLICT DO NOTHING", [digest, JSON.stringify(study)]);
    return { digest, version: versionOf(database, study, JSON.stringify(series), at) };
  });
}

/** @throws {Fault} `bad-input`: text that no file in UTF-8 can hold */
function digestToKeep(study: Study): string {
  try {
    return digestOf(study);
  } catch (cause) {
    throw new Fault("bad-input", "The study cannot be kept.", [
      { place: "", value: String(cause), accepted: "text of whole Unicode characters and finite numbers" },
    ]);
  }
}

function versionOf(database: Database, study: Study, series: string, at: string): number {
  // Seed and trials say how a study is run, not what is known.
  const { seed: _seed, trials: _trials, maximumTrials: _most, ...known } = study;
  const content = digestOf(known);
  const found = database.get<{ version: number }>(
    "SELECT version FROM study_versions WHERE series = ? AND content = ?",
    [series, content],
  );
  if (found !== undefined) return found.version;
  const version =
    database.get<{ last: number }>("SELECT COALESCE(MAX(version), 0) AS last FROM study_versions WHERE series = ?", [
      series,
    ])!.last + 1;
  database.run("INSERT INTO study_versions VALUES (?, ?, ?, ?)", [series, content, version, at]);
  return version;
}

/** A study by its digest. @throws {Error} it is not there, or was altered on the disk */
export function readStudyOf(database: Database, digest: string): Study {
  const row = database.get<{ document: string }>("SELECT document FROM studies WHERE digest = ?", [digest]);
  if (row === undefined) throw new Error(`the study ${digest} is missing`);
  const study = parseKept(row.document, `the study ${digest}`) as Study;
  if (digestOf(study) !== digest) throw new Error(`the study ${digest} was altered`);
  return study;
}
