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

/** Headers that keep a browser from doing with an answer what it is not for. */
export const protectiveHeaders = helmet({
  contentSecurityPolicy: { useDefaults: false, directives: POLICY },
  // Without TLS a browser ignores it, with a certificate of the laboratory's own it would lock people out.
  strictTransportSecurity: false,
  xFrameOptions: { action: "deny" },
});
