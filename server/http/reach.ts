import { refused } from "../errors.ts";
import { hostNames, isLoopback } from "./host-names.ts";
import type { TlsFiles } from "./tls.ts";

/** Where a server listens and how people reach it, as it is stated. */
export interface ReachOptions {
  readonly host: string;
  /** Names or addresses by which people on other machines reach it. */
  readonly allowedHosts?: readonly string[];
  readonly tls?: TlsFiles;
  /** Origin (RFC 6454) by which people reach it through a proxy, such as `https://trialband.example`. */
  readonly publicOrigin?: string;
  /** That traffic may go unencrypted beyond this machine. */
  readonly unencrypted?: boolean;
  /** Whether it asks people who they are. */
  readonly asks: boolean;
}

/** How people reach a server. */
export interface Reach {
  readonly hosts: ReadonlySet<string>;
  /** Beyond this machine's own. */
  readonly statedNames: readonly string[];
  /** `null` if requests come from browsers directly. */
  readonly publicOrigin: string | null;
  /** Whether browsers speak TLS, with the server or with the proxy before it. */
  readonly secure: boolean;
  /** What a person should know of it; `null` if nothing. */
  readonly warning: string | null;
}

/**
 * How people reach a server. Beyond its own machine it must ask who they are, be stated by name, and encrypt what goes
 * over the network, unless a person states that it need not.
 *
 * @throws {Fault} `bad-input`, with the option that is missing
 */
export function reachOf(options: ReachOptions): Reach {
  const { host, allowedHosts = [], tls, unencrypted = false, asks } = options;
  const origin = options.publicOrigin === undefined ? null : originOf(options.publicOrigin);
  const stated = [...allowedHosts, ...(origin === null ? [] : [origin.hostname])];
  const hosts = hostNames(host, stated);
  const elsewhere = !isLoopback(host);
  const beyond = elsewhere ? `--host ${host} leads beyond this machine` : "people reach it through a proxy";
  if ((elsewhere || origin !== null) && !asks)
    throw refused(
      "--users",
      undefined,
      `a file of users (--users FILE), a token (--token-file FILE), or both, since ${beyond}; trialband users and trialband token make them`,
    );
  if (tls !== undefined && origin?.protocol === "http:")
    throw refused(
      "--public-origin",
      options.publicOrigin,
      "an origin that begins with https, since a certificate is given",
    );
  const plain = (elsewhere && tls === undefined) || origin?.protocol === "http:";
  if (plain && !unencrypted)
    throw refused(
      "--certificate",
      undefined,
      `a certificate and its key (--certificate FILE --key FILE), since ${beyond}; or --unencrypted if anyone who can read the network may read passwords too`,
    );
  return {
    hosts,
    statedNames: stated,
    publicOrigin: origin?.origin ?? null,
    secure: tls !== undefined || origin?.protocol === "https:",
    warning: plain
      ? "Traffic is not encrypted: anyone who can read the network reads passwords and results, and can sign in with what they read."
      : null,
  };
}

/** @throws {Fault} `bad-input` */
function originOf(text: string): URL {
  const accepted = "a scheme, a name and perhaps a port, such as https://trialband.example";
  if (!/^https?:\/\/[^/?#@\s]+\/?$/i.test(text) || !URL.canParse(text))
    throw refused("--public-origin", text, accepted);
  return new URL(text);
}
