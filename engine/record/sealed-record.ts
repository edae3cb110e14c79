import type { RunRecord } from "./record.ts";

/** Where a record's figures come from, beyond the study: which sources computed them. */
export interface Provenance {
  readonly commit: string | null;
  readonly engineDigest: string;
  /** Of the registered models' sources, or of the person's own module. */
  readonly modelDigest: string;
  /** A person's own model as it ran, bundled into one module; `null` for a registered model, which comes with Trialband. */
  readonly modelSource: string | null;
}

/** Digests that tie a record together: SHA-256, hexadecimal, over canonical JSON (RFC 8785). */
export interface Seal {
  readonly algorithm: "SHA-256, RFC 8785";
  /** Of the study. */
  readonly study: string;
  /** Of all that a repetition must give again: everything but environment, provenance and seal. */
  readonly results: string;
  /** Of the whole record but the seal. */
  readonly record: string;
}

/** A record as it is filed. */
export interface SealedRecord extends RunRecord {
  readonly provenance: Provenance;
  readonly seal: Seal;
}

/** A record to report: as it is filed, or one that was never sealed (of an older format, or made by `propagate`). */
export type ReportedRecord = RunRecord & Partial<SealedRecord>;
