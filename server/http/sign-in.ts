import { readFileSync } from "node:fs";
import { join } from "node:path";
import express, { Router, type Request, type Response } from "express";
import { ipKeyGenerator, rateLimit } from "express-rate-limit";
import type { Access } from "../access/access.ts";
import { Fault } from "../errors.ts";
import { CHALLENGE } from "../access/identity.ts";
import { SIGN_IN, type LiveAnswers } from "./guard.ts";
import { requireOwnSite } from "./own-site.ts";
import { fillText } from "../../viewer/present/fill.ts";
import { signInWords, type SignInWords } from "./sign-in-words.ts";

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

  const show = (
    request: Request,
    response: Response,
    status: number,
    name: string,
    message: (words: SignInWords) => string,
  ): void => {
    const words = wordsFor(request);
    response
      .status(status)
      .vary("accept-language")
      // The form's own answer must carry its origin, which the policy of the page would hide.
      .set({ "cache-control": "no-store", "referrer-policy": "same-origin" })
      .type("html")
      .send(filled(read(), access.signInBy, name, words, message(words)));
  };

  router.get(SIGN_IN, (request, response) => {
    if (isSignedIn(access, request)) response.redirect(303, "/");
    else show(request, response, 200, "", () => "");
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
        show(request, response, 401, name, (words) => words[WRONG[access.signInBy]]);
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

const WRONG = { password: "wrongPassword", token: "wrongToken" } as const;

/** The words of the language that the browser prefers of those there are (RFC 9110, 12.5.4); English if it asks for none. */
const wordsFor = (request: Request): SignInWords =>
  signInWords[
    request.headers["accept-language"] === undefined ? "en" : languageOf(request.acceptsLanguages(...LANGUAGES))
  ];

const LANGUAGES = Object.keys(signInWords) as (keyof typeof signInWords)[];
const languageOf = (found: string | false): keyof typeof signInWords =>
  LANGUAGES.find((language) => language === found) ?? "en";

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
  show: (
    request: Request,
    response: Response,
    status: number,
    name: string,
    message: (words: SignInWords) => string,
  ) => void,
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
      show(request, response, 429, fieldOf(request, "name"), (words) => tooMany(words, seconds));
    },
  });

function tooMany({ tooManyMinute, tooManyMinutes }: SignInWords, seconds: number): string {
  const minutes = Math.ceil(seconds / 60);
  return minutes === 1 ? tooManyMinute : fillText(tooManyMinutes, { minutes: String(minutes) });
}

/** The page with its words, its message and what was typed; the parts of the other way to sign in are left out. */
function filled(page: string, by: Access["signInBy"], name: string, words: SignInWords, message: string): string {
  const other = by === "password" ? "token" : "password";
  return page
    .replaceAll(new RegExp(`<!-- by ${other} -->[\\s\\S]*?<!-- end -->`, "g"), "")
    .replaceAll(/<!-- (by \w+|end) -->/g, "")
    .replaceAll(/\{\{(\w+)\}\}/g, (_, word: string) => escaped(words[word as keyof SignInWords]))
    .replace("<!-- message -->", () =>
      message === "" ? "" : `<p class="wrong" role="alert" id="wrong">${escaped(message)}</p>`,
    )
    .replace('value=""', () => `value="${escaped(name)}"`);
}

const escaped = (text: string): string =>
  text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");
