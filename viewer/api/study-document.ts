import { z } from "zod";

/** The engine's schemas of a study and of what it states of an input, as the interface's document names them. */
const STUDY = { $ref: "#/components/schemas/Study" };
const STATEMENT = { $ref: "#/components/schemas/statement" };

/**
 * A study in a request. Its schema is the engine's, which reports each field with its place; here only that something is
 * there matters.
 */
export const studySent = z.unknown().meta({ override: STUDY });

/** A study in a request, or the id of a listed one. */
export const studyOrId = z
  .unknown()
  .meta({ override: { anyOf: [{ type: "string", description: "Id of a listed study" }, STUDY] } });

type Document = Readonly<Record<string, unknown>>;

/** A study in an answer, as its file has it. */
export const studyShown = <T = Document>(): z.ZodType<T> =>
  (z.unknown() as unknown as z.ZodType<T>).meta({ override: STUDY });

/** What a study states of an input, in an answer. */
export const statementShown = <T = Document>(): z.ZodType<T> =>
  (z.unknown() as unknown as z.ZodType<T>).meta({ override: STATEMENT });
