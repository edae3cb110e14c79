import { X509Certificate } from "node:crypto";
import { readFileSync } from "node:fs";
import { createSecureContext } from "node:tls";
import { readSecretFile } from "../access/secret-file.ts";
import { Fault } from "../errors.ts";

/** What an encrypted connection stands on beside the issuers that Node.js knows. PEM. */
export interface QueueTls {
  /** Whose certificates count, in place of all that Node.js trusts. */
  readonly ca?: string;
  /** What this machine shows of itself, where the queue asks for it. */
  readonly cert?: string;
  readonly key?: string;
}

const CA = "TRIALBAND_QUEUE_CA";
const CERTIFICATE = "TRIALBAND_QUEUE_CERTIFICATE";
const KEY = "TRIALBAND_QUEUE_KEY";

/** Reads the files that the environment names. @throws {Fault} `bad-input`, `no-such-file`: with the variable's name */
export function readTls(environment: NodeJS.ProcessEnv): QueueTls {
  const [ca, cert, key] = [CA, CERTIFICATE, KEY].map((name) => environment[name] ?? "");
  if ((cert === "") !== (key === ""))
    throw wrong(
      cert === "" ? CERTIFICATE : KEY,
      "nothing",
      `a file, since ${cert === "" ? KEY : CERTIFICATE} names one`,
    );
  const found = {
    ...(ca === "" ? {} : { ca: certificateIn(ca!, CA) }),
    ...(cert === ""
      ? {}
      : { cert: certificateIn(cert!, CERTIFICATE), key: readSecretFile(key!, "the file of the queue's key") }),
  };
  try {
    createSecureContext(found);
  } catch (error) {
    throw wrong(KEY, `${key}: ${(error as Error).message}`, `the key (PEM) of the certificate in ${CERTIFICATE}`);
  }
  return found;
}

function certificateIn(path: string, variable: string): string {
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch (error) {
    throw new Fault("no-such-file", `${variable} names ${path}, which cannot be read: ${(error as Error).message}`);
  }
  try {
    // Node.js would pass over what it cannot read, and then trust nobody.
    void new X509Certificate(text);
  } catch {
    throw wrong(variable, path, "a file with a certificate in PEM, which begins with -----BEGIN CERTIFICATE-----");
  }
  return text;
}

const wrong = (place: string, value: string, accepted: string): Fault =>
  new Fault("bad-input", "The queue's encryption cannot be set up.", [{ place, value, accepted }]);

const UNKNOWN_ISSUER = new Set([
  "SELF_SIGNED_CERT_IN_CHAIN",
  "DEPTH_ZERO_SELF_SIGNED_CERT",
  "UNABLE_TO_VERIFY_LEAF_SIGNATURE",
  "UNABLE_TO_GET_ISSUER_CERT",
  "UNABLE_TO_GET_ISSUER_CERT_LOCALLY",
  "CERT_SIGNATURE_FAILURE",
]);

/** Message of the error of one who has waited long enough. */
export const NO_ANSWER = "it does not answer";

/** Why a connection did not come about, and what to do. @param tls `null` for one that is not encrypted */
export function connectionWords({ code = "", message }: NodeJS.ErrnoException, tls: QueueTls | null): string {
  const ended = code === "ECONNRESET" || code === "EPIPE" || message.startsWith("Connection is closed");
  if (tls === null) return ended ? "it ends the connection. Does it expect rediss://?" : message;
  if (UNKNOWN_ISSUER.has(code))
    return `its certificate was issued by nobody whom this machine trusts (${message}). Name the issuer's certificate in ${CA}.`;
  if (code === "ERR_TLS_CERT_ALTNAME_INVALID") return `its certificate is another host's. ${message}`;
  if (code === "CERT_HAS_EXPIRED" || code === "CERT_NOT_YET_VALID")
    return `its certificate is not valid today (${message}).`;
  if ((ended && tls.cert === undefined) || /CERTIFICATE_REQUIRED|HANDSHAKE_FAILURE/.test(code))
    return `it ends the connection (${message}). If it asks for a certificate of this machine, name it in ${CERTIFICATE} and its key in ${KEY}.`;
  // A queue that is not encrypted takes the first bytes for the beginning of a command, and waits for its end.
  if (message === NO_ANSWER || /^ERR_SSL|^EPROTO/.test(code)) return `${message}. Does it expect redis://?`;
  return message;
}
