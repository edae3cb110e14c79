import * as z from "zod";
import type { Immutable } from "../immutable.ts";

const text = z.string().min(1).max(500);

/**
 * The raw data from which the figures of a statement were evaluated: the files, identified by their digests, the method
 * and the result. It is copied to the record and changes no figure.
 */
export const evidenceSchema = z
  .strictObject({
    method: text.describe("How the figures were evaluated, in words"),
    files: z
      .array(
        z.strictObject({
          name: text.describe("Name of the file, without its folder"),
          sha256: z
            .string()
            .regex(/^[0-9a-f]{64}$/, "a SHA-256 digest of 64 hexadecimal digits")
            .describe("SHA-256 of its bytes, hexadecimal"),
        }),
      )
      .min(1)
      .max(20)
      .describe("The raw data"),
    figures: z
      .array(z.strictObject({ name: text, value: z.union([z.number(), text]), unit: text.optional() }))
      .max(50)
      .describe("What the evaluation found"),
  })
  // With an id, the published schema contains it once, not once for every kind of distribution.
  .meta({ id: "evidence" });

/** Evidence of a statement, as the record keeps it. */
export type Evidence = Immutable<z.output<typeof evidenceSchema>>;
