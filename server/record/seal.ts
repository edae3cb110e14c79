import type { Environment, Provenance, RunRecord, Seal, SealedRecord } from "../../engine/index.ts";
import { digestOf } from "../canonical.ts";
import { buildFacts } from "./build-facts.ts";

export type { Provenance, Seal, SealedRecord };

/** What a repetition must give again. */
export function resultsOf(record: RunRecord & Partial<SealedRecord>): unknown {
  const { environment: _environment, provenance: _provenance, seal: _seal, ...results } = record;
  return results;
}

export function sealOf(record: RunRecord & { readonly provenance: Provenance }): Seal {
  const { seal: _seal, ...whole } = record as RunRecord & Partial<SealedRecord>;
  return {
    algorithm: "SHA-256, RFC 8785",
    study: digestOf(record.study),
    results: digestOf(resultsOf(record)),
    record: digestOf(whole),
  };
}

/** @param module a person's own model: its digest and its source; without one the model is registered */
export function sealRecord(
  record: RunRecord & { readonly environment: Environment },
  module: { readonly digest: string; readonly source: string } | null,
): SealedRecord {
  const provenance: Provenance = {
    commit: buildFacts.commit,
    engineDigest: buildFacts.engineDigest,
    modelDigest: module?.digest ?? buildFacts.modelsDigest,
    modelSource: module?.source ?? null,
  };
  const whole = { ...record, provenance };
  return { ...whole, seal: sealOf(whole) };
}

/** The bytes of a filed record: verification refuses any others, even if they mean the same. */
export const recordText = (record: RunRecord): string => `${JSON.stringify(record, null, 2)}\n`;
