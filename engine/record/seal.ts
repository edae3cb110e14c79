import * as z from "zod";
import type { Immutable } from "../immutable.ts";
import { figure } from "./parts.ts";

export const environmentSchema = z.strictObject({
  startedAt: z.string(),
  seconds: figure,
  workers: z.int(),
  runtime: z.string(),
});

const digest = z.string().regex(/^[0-9a-f]{64}$/, "a SHA-256 digest of 64 hexadecimal digits");
const sourceDigest = z.union([digest, z.literal("unbuilt")]);

export const provenanceSchema = z.strictObject({
  commit: z.string().nullable(),
  engineDigest: sourceDigest,
  /** Of the registered models' sources, or of the person's own module. */
  modelDigest: sourceDigest,
  /** A person's own model as it ran, bundled into one module; `null` for a registered model, which comes with Trialband. */
  modelSource: z.string().nullable(),
});

export const sealSchema = z.strictObject({
  algorithm: z.literal("SHA-256, RFC 8785"),
  /** Of the study. */
  study: digest,
  /** Of all that a repetition must give again: everything but environment, provenance and seal. */
  results: digest,
  /** Of the whole record but the seal. */
  record: digest,
});

/** Differs from run to run; never part of what is compared. */
export type Environment = Immutable<z.output<typeof environmentSchema>>;
/** Where a record's figures come from, beyond the study: which sources computed them. */
export type Provenance = Immutable<z.output<typeof provenanceSchema>>;
/** Digests that tie a record together: SHA-256, hexadecimal, over canonical JSON (RFC 8785). */
export type Seal = Immutable<z.output<typeof sealSchema>>;
