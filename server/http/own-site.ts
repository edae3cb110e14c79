import type { Request, RequestHandler } from "express";
import { Fault } from "../errors.ts";

const READING = new Set(["GET", "HEAD", "OPTIONS"]);

/** What a page of any site may send without asking first (Fetch, CORS-safelisted request-header). */
const UNASKED = ["application/x-www-form-urlencoded", "multipart/form-data", "text/plain"];

/**
 * Refuses what a page of another site has a browser ask for. Nothing but a browser sends Sec-Fetch-Site and, unasked,
 * Origin; what does not send them is no page.
 *
 * @param stated the origin by which people reach the server through a proxy; `null` if browsers ask it directly
 */
export const ownSite =
  (stated: string | null): RequestHandler =>
  (request, _response, next) => {
    requireOwnSite(request, stated);
    if (!READING.has(request.method)) requireAskedType(request);
    next();
  };

/** The same, whatever the type of the body: for the form of the sign-in. @throws {Fault} `cross-site` */
export function requireOwnSite(request: Request, stated: string | null): void {
  const site = request.headers["sec-fetch-site"];
  if (site !== undefined && site !== "same-origin" && site !== "none")
    throw new Fault(
      "cross-site",
      `The page of another site asks (Sec-Fetch-Site: ${String(site)}); expected this server's own page.`,
    );
  if (!READING.has(request.method)) requireOwnOrigin(request, stated);
}

/** @throws {Fault} `cross-site`: RFC 6454, 7: the origin of the page, `null` for one that may not be known */
function requireOwnOrigin({ headers: { origin, host }, socket }: Request, stated: string | null): void {
  // By the connection itself: what a header says of the scheme, anyone can write.
  const own = stated ?? `${"encrypted" in socket ? "https" : "http"}://${String(host)}`;
  if (origin !== undefined && origin.toLowerCase() !== own.toLowerCase())
    throw new Fault("cross-site", `A page of ${origin} asks; expected one of ${own}.`);
}

/** @throws {Fault} `unsupported-media-type` for a body that a form of another site could have sent */
function requireAskedType(request: Request): void {
  const { "content-length": length, "transfer-encoding": encoding, "content-type": type } = request.headers;
  if ((length === undefined || length === "0") && encoding === undefined) return;
  if (type === undefined || request.is(UNASKED) !== false)
    throw new Fault(
      "unsupported-media-type",
      `The body is sent as ${type ?? "nothing"}; expected application/json, or application/octet-stream for files.`,
    );
}
