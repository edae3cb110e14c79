import type { RequestHandler } from "express";
import helmet from "helmet";

/** Nothing from elsewhere, no script and no style within the page, nobody's frame. Pictures are made by the page itself. */
const POLICY = {
  "default-src": ["'self'"],
  "img-src": ["'self'", "data:", "blob:"],
  "object-src": ["'none'"],
  "base-uri": ["'none'"],
  "form-action": ["'self'"],
  "frame-ancestors": ["'none'"],
};

/** Seconds for which a browser that has seen the server over TLS asks it over TLS alone: RFC 6797. */
const STRICT_FOR = 30 * 86_400;

/**
 * Headers that keep a browser from doing with an answer what it is not for.
 *
 * @param tls whether the server itself speaks TLS
 */
export const protectiveHeaders = (tls: boolean): RequestHandler =>
  helmet({
    contentSecurityPolicy: { useDefaults: false, directives: POLICY },
    // Of this name alone: other machines of the laboratory may have none.
    strictTransportSecurity: tls ? { maxAge: STRICT_FOR, includeSubDomains: false } : false,
    xFrameOptions: { action: "deny" },
  });
