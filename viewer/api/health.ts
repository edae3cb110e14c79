import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";

const partHealth = z
  .strictObject({ ok: z.boolean(), found: z.string().describe("What was found, in words") })
  .meta({ id: "PartHealth" });
/** How a part of the server is, and in words what was found. */
export type PartHealth = Immutable<z.output<typeof partHealth>>;

/** `GET /healthz`: 200 if every part is well, else 503. */
export const serverHealth = z
  .strictObject({
    ok: z.boolean().describe("Whether every part is well"),
    parts: z.strictObject({ store: partHealth, pool: partHealth, disk: partHealth }),
  })
  .meta({ id: "ServerHealth" });
export type ServerHealth = Immutable<z.output<typeof serverHealth>>;
