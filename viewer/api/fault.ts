import { z } from "zod";
import type { Problem } from "../../engine/index.ts";
import type { Immutable } from "../../engine/internal.ts";

/** A place that cannot be used, as the engine reports it. */
export const problem = z
  .strictObject({
    place: z.string().describe("The field, such as inputs.a.halfWidth; empty for the whole"),
    value: z.string().describe("What stands there, as text"),
    accepted: z.string().describe("What is accepted in its place, in words"),
  })
  .meta({ id: "Place" }) satisfies z.ZodType<Problem>;

/** What went wrong, as plain data. */
export const fault = z
  .strictObject({ code: z.string(), message: z.string(), problems: z.array(problem) })
  .meta({ id: "Fault" });
export type Fault = Immutable<z.output<typeof fault>>;

/** The answer of every route that refuses a request: `application/problem+json`, RFC 9457. */
export const refusal = z.strictObject({
  type: z.templateLiteral(["/api/problems/", z.string()]).describe("Address of the kind of fault"),
  title: z.string().describe("The kind of fault in words, the same for each of its kind"),
  status: z.int(),
  detail: z.string().describe("What went wrong this time"),
  instance: z
    .templateLiteral(["urn:uuid:", z.uuid()])
    .describe("This occurrence: the request's id, as in the header X-Request-Id and in the server's log"),
  code: z.string(),
  problems: z.array(problem).describe("Every place of the request that cannot be used"),
});
export type Refusal = Immutable<z.output<typeof refusal>>;

/** `GET /api/problems/:code`: a kind of fault. */
export const problemKind = z
  .strictObject({ code: z.string(), status: z.int(), title: z.string() })
  .meta({ id: "FaultKind" });
export type ProblemKind = Immutable<z.output<typeof problemKind>>;
