import type { Response } from "express";
import { ROLES, type Role, type Session } from "../../viewer/api/access.ts";
import { Fault } from "../errors.ts";

/** Who asks. */
export type Identity = Session;

/** Who asks a server that is reached from its own machine alone and names no users: its owner. */
export const OWNER: Identity = { name: null, role: "administer", by: "nothing" };

/** How a program may say who it is: RFC 6750, 3. */
export const CHALLENGE = 'Bearer realm="Trialband"';

const identities = new WeakMap<Response, Identity>();

/** States who asks, for the routes that answer. */
export const nameIdentity = (response: Response, identity: Identity): void => void identities.set(response, identity);

/** Who asks. @throws {Fault} `sign-in-needed`: nobody has found out; such a request is refused, never answered */
export function identityOf(response: Response): Identity {
  const found = identities.get(response);
  if (found === undefined) throw new Fault("sign-in-needed", "This request names nobody who may ask.");
  return found;
}

export const allows = (has: Role, needs: Role): boolean => ROLES.indexOf(has) >= ROLES.indexOf(needs);

/** @throws {Fault} `sign-in-needed`; `not-allowed` if the role of who asks does not reach */
export function requireRole(response: Response, needs: Role): void {
  const { name, role } = identityOf(response);
  if (allows(role, needs)) return;
  response.set("www-authenticate", `${CHALLENGE}, error="insufficient_scope", scope="${needs}"`);
  throw new Fault(
    "not-allowed",
    `This needs the role “${needs}”; ${name ?? "who asks"} has the role “${role}”. Who administers this server can change it.`,
  );
}
