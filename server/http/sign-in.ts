import { readFileSync } from "node:fs";
import { join } from "node:path";
import express, { Router, type Request, type Response } from "express";
import { ipKeyGenerator, rateLimit } from "express-rate-limit";
import type { Access } from "../access/access.ts";
import { Fault } from "../errors.ts";
import { CHALLENGE } from "../access/identity.ts";
import { SIGN_IN, type LiveAnswers } from "./guard.ts";
import { requireOwnSite } from "./own-site.ts";

/** Failed sign-ins allowed within a time, by address and by name. */
export interface SignInLimits {
  readonly byAddress: number;
  readonly byName: number;
  /** ms */
  readonly within: number;
}

export const USUAL_SIGN_IN_LIMITS: SignInLimits = { byAddress: 20, byName: 10, within: 15 * 60_000 };

/** A name and a password. */
const LARGEST_FORM = "4kb";
const STYLE = /<link\b[^>]*\bhref="\.\/([^"]+\.css)"/g;

/**
 * The sign-in page, its style and nothing else: what is answered to anyone. It is a plain form that needs no script, and
 * leads to the page alone, whatever it was asked for with.
 *
 * @param page folder of the built page
 * @param origin as for `ownSite`
 */
export function signIn(
  access: Access,
  page: string,
  origin: string | null,
  limits: SignInLimits = USUAL_SIGN_IN_LIMITS,
): Router {
  const router = Router();
  if (!access.asks) return router;
  const read = (): string => readFileSync(join(page, "sign-in.html"), "utf8");
  const styles = (): string[] => Array.from(read().matchAll(STYLE), ([, path]) => path!);

  const show = (response: Response, status: number, name: string, message: string): void => {
    response
      .status(status)
      // The form's own answer must carry its origin, which the policy of the page would hide.
      .set({ "cache-control": "no-store", "referrer-policy": "same-origin" })
      .type("html")
      .send(filled(read(), access.signInBy, name, message));
  };

  router.get(SIGN_IN, (request, response) => {
    if (isSignedIn(access, request)) response.redirect(303, "/");
    else show(response, 200, "", "");
  });
  router.get(/^\/assets\/[\w.-]+\.css$/, (request, response, next) => {
    // The one stylesheet that the sign-in page names; anything else is the page's, for those who signed in.
    if (!styles().includes(request.path.slice(1))) next();
    else response.sendFile(request.path.slice(1), { root: page, maxAge: "1h" });
  });
  router.post(
    SIGN_IN,
    (request, _response, next) => {
      requireOwnSite(request, origin);
      if (request.is("application/x-www-form-urlencoded") === false)
        throw new Fault("unsupported-media-type", "A sign-in is sent as application/x-www-form-urlencoded.");
      next();
    },
    express.urlencoded({ extended: false, limit: LARGEST_FORM, parameterLimit: 8 }),
    limiter(limits, limits.byAddress, (request) => ipKeyGenerator(request.ip ?? ""), show),
    limiter(limits, limits.byName, (request) => fieldOf(request, "name").trim().toLowerCase(), show),
    async (request, response) => {
      const name = fieldOf(request, "name");
      const id = await access.signIn(name, fieldOf(request, "password"));
      // Whatever session came with the form ends: nobody signs in to one that another has begun.
      access.signOut(request.headers);
      if (id === null) {
        response.set("www-authenticate", CHALLENGE);
        show(response, 401, name, WRONG[access.signInBy]);
        return;
      }
      response.cookie(access.cookie, id, cookieOptions(access)).set("cache-control", "no-store").redirect(303, "/");
    },
  );
  return router;
}

/** Ends the session of who asks, and at once every stream that it reads. */
export const signOut =
  (access: Access, live: LiveAnswers) =>
  (request: Request, response: Response): void => {
    access.signOut(request.headers);
    response.clearCookie(access.cookie, cookieOptions(access));
    live.look(response);
  };

const cookieOptions = ({ secure }: Access) => ({ httpOnly: true, sameSite: "strict", secure, path: "/" }) as const;

const WRONG = {
  password: "The name or the password is wrong.",
  token: "This is not the token of this server.",
} as const;

const fieldOf = (request: Request, field: string): string => {
  const value = (request.body as Readonly<Record<string, unknown>> | undefined)?.[field];
  return typeof value === "string" ? value : "";
};

function isSignedIn(access: Access, request: Request): boolean {
  try {
    return access.identify(request.headers) !== null;
  } catch {
    return false;
  }
}

/** Counts failed sign-ins by a key, and refuses more than allowed. Successful ones do not count. */
const limiter = (
  { within }: SignInLimits,
  most: number,
  keyOf: (request: Request) => string,
  show: (response: Response, status: number, name: string, message: string) => void,
) =>
  rateLimit({
    windowMs: within,
    limit: most,
    skipSuccessfulRequests: true,
    standardHeaders: false,
    legacyHeaders: false,
    // Which headers a proxy may set is settled where the app is made.
    validate: false,
    keyGenerator: keyOf,
    handler: (request, response) => {
      const { resetTime } = (request as Request & { rateLimit?: { resetTime?: Date } }).rateLimit ?? {};
      const seconds = Math.max(1, Math.ceil(((resetTime?.getTime() ?? 0) - Date.now()) / 1000));
      response.set("retry-after", String(seconds));
      show(response, 429, fieldOf(request, "name"), `Too many attempts failed. Try again in ${inWords(seconds)}.`);
    },
  });

const inWords = (seconds: number): string => {
  const minutes = Math.ceil(seconds / 60);
  return minutes === 1 ? "a minute" : `${minutes} minutes`;
};

/** The page with its message and what was typed; the parts of the other way to sign in are left out. */
function filled(page: string, by: Access["signInBy"], name: string, message: string): string {
  const other = by === "password" ? "token" : "password";
  return page
    .replaceAll(new RegExp(`<!-- by ${other} -->[\\s\\S]*?<!-- end -->`, "g"), "")
    .replaceAll(/<!-- (by \w+|end) -->/g, "")
    .replace("<!-- message -->", () =>
      message === "" ? "" : `<p class="wrong" role="alert" id="wrong">${escaped(message)}</p>`,
    )
    .replace('value=""', () => `value="${escaped(name)}"`);
}

const escaped = (text: string): string =>
  text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");
