import type { Request, RequestHandler, Response } from "express";
import type { Access } from "../access/access.ts";
import { CHALLENGE, nameIdentity } from "../access/identity.ts";
import { Fault } from "../errors.ts";

/** Where a person signs in. */
export const SIGN_IN = "/sign-in";

/** Milliseconds from one look at the answers that go on to the next. */
const LOOK_EVERY = 5000;

/** Answers that go on, such as a stream of events: each ends when who reads it may no longer. */
export interface LiveAnswers {
  add(response: Response, stands: () => boolean): void;
  /** Ends those whose reader may no longer. @param but the answer that says so */
  look(but?: Response): void;
}

export function liveAnswers(every = LOOK_EVERY): LiveAnswers {
  const going = new Map<Response, () => boolean>();
  let timer: ReturnType<typeof setInterval> | undefined;
  const look = (but?: Response): void => {
    for (const [response, stands] of going) if (response !== but && !mayGoOn(stands)) response.destroy();
  };
  return {
    add(response, stands) {
      going.set(response, stands);
      timer ??= setInterval(() => look(), every).unref();
      response.on("close", () => {
        going.delete(response);
        if (going.size > 0) return;
        clearInterval(timer);
        timer = undefined;
      });
    },
    look,
  };
}

function mayGoOn(stands: () => boolean): boolean {
  try {
    return stands();
  } catch {
    // The file of users cannot be read: nobody is known.
    return false;
  }
}

/**
 * Lets nobody past who does not say who they are: whatever the address, the method, or the way it is written. A browser
 * that asks for a page is led to the sign-in; everything else is refused.
 */
export const guard =
  (access: Access, live: LiveAnswers): RequestHandler =>
  (request, response, next) => {
    let shown: ReturnType<Access["identify"]>;
    try {
      shown = access.identify(request.headers);
    } catch (error) {
      if (error instanceof Fault && error.code === "sign-in-needed")
        response.set("www-authenticate", `${CHALLENGE}, error="invalid_token"`);
      throw error;
    }
    if (shown === null) {
      if (asksForPage(request)) {
        response.set("cache-control", "no-store").redirect(303, SIGN_IN);
        return;
      }
      response.set("www-authenticate", CHALLENGE);
      throw new Fault("sign-in-needed", "Sign in first: on the page, or by Authorization: Bearer TOKEN.");
    }
    nameIdentity(response, shown.identity);
    if (access.asks) {
      // What one person may see stays in no cache for the next one at the same machine; the page itself is no secret.
      response.set("cache-control", API.test(request.path) ? "no-store" : "private, no-cache");
      live.add(response, shown.stands);
    }
    next();
  };

const API = /^\/+(api|healthz|metrics)(\/|$)/i;

const asksForPage = (request: Request): boolean =>
  (request.method === "GET" || request.method === "HEAD") &&
  !API.test(request.path) &&
  request.accepts(["json", "html"]) === "html";
