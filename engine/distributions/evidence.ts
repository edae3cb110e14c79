import * as z from "zod";

const text = z.string().min(1).max(500);

/**
 * What the figures of a statement were evaluated from, where a record at hand gave them: which files, told apart by
 * their digests, how, and with what result. It is carried to the record and changes no figure.
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
      .describe("The raw records"),
    figures: z
      .array(z.strictObject({ name: text, value: z.union([z.number(), text]), unit: text.optional() }))
      .max(50)
      .describe("What the evaluation found"),
  })
  // An id makes the published schema hold it once, not once for every kind of distribution.
  .meta({ id: "evidence" });

/** Evidence of a statement, as the record keeps it. */
export type Evidence = z.output<typeof evidenceSchema>;
