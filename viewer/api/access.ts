/** What a person or a program may do; each role may do what those before it may. */
export const ROLES = ["read", "run", "administer"] as const;
export type Role = (typeof ROLES)[number];

/** `GET /api/session`: who asks, and what they may do. */
export interface Session {
  /** `null` if the server asks nobody who they are. */
  readonly name: string | null;
  readonly role: Role;
  /** By what they are known: nothing on a server for this machine alone, a program's token, a person's sign-in. */
  readonly by: "nothing" | "token" | "sign-in";
}
