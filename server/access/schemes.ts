/** Name of the cookie that carries a session. Over TLS its prefix binds it to this very host (RFC 6265bis, 4.1.3.2). */
export const cookieName = (secure: boolean): string => (secure ? "__Host-trialband-session" : "trialband-session");

/** How one says who one is, as OpenAPI 3.1 puts it (4.8.27, Security Scheme Object): either of the two. */
export const securitySchemes = (secure: boolean) =>
  ({
    token: { type: "http", scheme: "bearer", description: "The token of a program (RFC 6750)." },
    session: {
      type: "apiKey",
      in: "cookie",
      name: cookieName(secure),
      description: "The cookie that the sign-in page gives a browser.",
    },
  }) as const;
