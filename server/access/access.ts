import type { IncomingHttpHeaders } from "node:http";
import type { Role } from "../../viewer/api/access.ts";
import { Fault } from "../errors.ts";
import { OWNER, type Identity } from "./identity.ts";
import { isPassword, nobodysPassword } from "./password.ts";
import { cookieName } from "./schemes.ts";
import { openSessions, type Sessions, type SignedIn } from "./sessions.ts";
import { tokenCheck } from "./token.ts";
import { spelled, TOKEN_NAME, type CurrentUsers } from "./users-file.ts";

/** What a request showed of who asks. */
export interface Shown {
  readonly identity: Identity;
  /** Whether it would still be let in: a stream of events ends when its reader's right does. */
  stands(): boolean;
}

/** Who may ask a server, and how they say who they are. */
export interface Access {
  /** Whether anyone has to say who they are. */
  readonly asks: boolean;
  /** What a person signs in with: a name and a password, or the token alone. */
  readonly signInBy: "password" | "token";
  /** Name of the cookie of a session. */
  readonly cookie: string;
  /** Whether the cookie goes over TLS alone. */
  readonly secure: boolean;
  /**
   * Who sends these headers; `null` if they name nobody.
   *
   * @throws {Fault} `sign-in-needed`: they name somebody who may not ask, or may no longer
   */
  identify(headers: IncomingHttpHeaders): Shown | null;
  /** @returns the id of a new session, or `null`. @throws {Fault} `busy` */
  signIn(name: string, password: string): Promise<string | null>;
  /** Ends the session that these headers carry, if they carry one. */
  signOut(headers: IncomingHttpHeaders): void;
}

export interface AccessOptions {
  readonly users: CurrentUsers | null;
  readonly token: { readonly text: string; readonly role: Role } | null;
  /** Whether people reach the server over TLS. */
  readonly secure: boolean;
  readonly sessions?: Sessions;
}

/** Of a server that is reached from its own machine alone, and names no users. */
export const OPEN: Access = {
  asks: false,
  signInBy: "password",
  cookie: cookieName(false),
  secure: false,
  identify: () => ({ identity: OWNER, stands: () => true }),
  signIn: async () => null,
  signOut: () => undefined,
};

/** Sign-ins that wait for the one before: each takes a core and 32 MiB for a moment. */
const MOST_WAITING = 32;
const RETRY_AFTER = 10;

export function openAccess({ users, token, secure, sessions = openSessions() }: AccessOptions): Access {
  const cookie = cookieName(secure);
  const isToken = token === null ? () => false : tokenCheck(token.text);
  const byToken: Identity = { name: TOKEN_NAME, role: token?.role ?? "read", by: "token" };
  const inTurn = oneAfterTheOther();
  const nobody = nobodysPassword(users?.all()[0]?.password.scrypt);

  const known = ({ name, secret }: SignedIn): Identity | null => {
    if (users === null) return secret === TOKEN_NAME ? { ...byToken, by: "sign-in" } : null;
    const user = users.all().find((one) => one.name === name);
    // The salt changes with every password, so that another password ends what the old one began.
    return user?.password.salt === secret ? { name, role: user.role, by: "sign-in" } : null;
  };
  const ofSession = (id: string, used: boolean): Identity | null => {
    const found = sessions.find(id, used);
    if (found === null) return null;
    const identity = known(found);
    if (identity === null) sessions.end(id);
    return identity;
  };

  return {
    asks: true,
    signInBy: users === null ? "token" : "password",
    cookie,
    secure,
    identify({ authorization, cookie: cookies }) {
      if (authorization !== undefined) {
        const given = /^Bearer +(\S+)$/i.exec(authorization)?.[1];
        if (given === undefined || !isToken(given))
          throw new Fault(
            "sign-in-needed",
            "The request carries no token of this server: Authorization: Bearer TOKEN.",
          );
        return { identity: byToken, stands: () => true };
      }
      const id = valueOf(cookie, cookies);
      if (id === null) return null;
      const identity = ofSession(id, true);
      return identity === null ? null : { identity, stands: () => ofSession(id, false) !== null };
    },
    async signIn(name, password) {
      if (users === null) return isToken(password) ? sessions.begin({ name: TOKEN_NAME, secret: TOKEN_NAME }) : null;
      const user = users.all().find((one) => one.name === spelled(name));
      const kept = user?.password ?? nobody;
      const fits = await inTurn(() => isPassword(password, kept));
      return fits && user !== undefined ? sessions.begin({ name: user.name, secret: kept.salt }) : null;
    },
    signOut({ cookie: cookies }) {
      const id = valueOf(cookie, cookies);
      if (id !== null) sessions.end(id);
    },
  };
}

/**
 * The value of a cookie (RFC 6265, 5.4); `null` without one, and if there are two: one of them was planted by a page on
 * another path or a neighbouring host.
 */
function valueOf(name: string, cookies: string | undefined): string | null {
  const found = (cookies ?? "")
    .split(";")
    .map((pair) => pair.trim())
    .filter((pair) => pair.startsWith(`${name}=`))
    .map((pair) => pair.slice(name.length + 1));
  return found.length === 1 ? found[0]! : null;
}

/** Has one piece of work done at a time. @throws {Fault} `busy` if too many wait */
function oneAfterTheOther(): <T>(work: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve();
  let waiting = 0;
  return async (work) => {
    if (waiting >= MOST_WAITING)
      throw new Fault("busy", "Many people sign in at once; try again in a moment.", [], RETRY_AFTER);
    waiting += 1;
    const mine = last.then(work);
    last = mine.catch(() => undefined);
    try {
      return await mine;
    } finally {
      waiting -= 1;
    }
  };
}
