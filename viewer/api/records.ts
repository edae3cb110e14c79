import { z } from "zod";
import type { Immutable } from "../../engine/index.ts";
import { shownRecordSchema } from "../../engine/record/index.ts";

/** `POST /api/records`: a filed record in today's format. */
export const shownRecord = z
  .strictObject({ record: shownRecordSchema, seal: z.string().describe("What its digests say, as a sentence") })
  .meta({ id: "ShownRecord" });
export type ShownRecord = Immutable<z.output<typeof shownRecord>>;
