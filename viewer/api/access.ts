import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";

/** What a person or a program may do; each role may do what those before it may. */
export const ROLES = ["read", "run", "administer"] as const;
export type Role = (typeof ROLES)[number];

/** `GET /api/session`: who asks, and what they may do. */
export const session = z
  .strictObject({
    name: z.string().nullable().describe("null if the server asks nobody who they are"),
    role: z.enum(ROLES),
    by: z
      .enum(["nothing", "token", "sign-in"])
      .describe(
        "By what they are known: nothing on a server for this machine alone, a program's token, a person's sign-in",
      ),
  })
  .meta({ id: "Session" });
export type Session = Immutable<z.output<typeof session>>;
