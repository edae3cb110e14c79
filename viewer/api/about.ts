import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";

/** `GET /api/about` */
export const about = z
  .strictObject({
    name: z.literal("trialband"),
    version: z.string(),
    node: z.string().describe("Version of Node.js that the server runs on"),
    workers: z.int().describe("Threads that draw trials"),
    queue: z.boolean().describe("Whether the workers of a queue draw the trials of runs in their place"),
  })
  .meta({ id: "About" });
export type About = Immutable<z.output<typeof about>>;
