import { createPrivateKey, X509Certificate, type KeyObject } from "node:crypto";
import { readFileSync, statSync } from "node:fs";
import { isIP } from "node:net";
import { Fault } from "../errors.ts";

/** Files in PEM: a certificate with those that lead to its issuer, and its key. */
export interface TlsFiles {
  readonly certificate: string;
  readonly key: string;
}

/** What node:https takes. */
export interface TlsSecrets {
  readonly cert: Buffer;
  readonly key: Buffer;
  readonly minVersion: "TLSv1.2";
}

const DAY = 86_400_000;
/** Days before its end from which on a certificate is warned of. */
const SOON = 21;

/**
 * Reads a certificate and its key, and says what a person should know of them.
 *
 * @param names by which people reach the server
 * @throws {Fault} `no-such-file`; `bad-input`: files that are none of these, or a key of another certificate
 */
export function readTls(
  { certificate, key }: TlsFiles,
  names: Iterable<string>,
  warn: (message: string) => void,
  now: number = Date.now(),
): TlsSecrets {
  const [cert, secret] = [read(certificate, "certificate"), read(key, "key")];
  const found = parsed(certificate, "--certificate", "a certificate in PEM", () => new X509Certificate(cert));
  const own: KeyObject = parsed(key, "--key", "a private key in PEM, without a passphrase", () =>
    createPrivateKey(secret),
  );
  if (!found.checkPrivateKey(own))
    throw refusal("--key", key, `the key of the certificate ${certificate}; this is another one's`);
  const [from, to] = [Date.parse(found.validFrom), Date.parse(found.validTo)];
  if (to <= now) warn(`The certificate ${certificate} ended on ${day(to)}: browsers will refuse it.`);
  else if (from > now)
    warn(`The certificate ${certificate} begins on ${day(from)}: browsers will refuse it until then.`);
  else if (to - now < SOON * DAY) warn(`The certificate ${certificate} ends on ${day(to)}.`);
  const missing = [...names].filter((name) => !covers(found, name));
  if (missing.length > 0)
    warn(
      `The certificate ${certificate} does not name ${missing.join(", ")}: browsers that ask for it will refuse it.`,
    );
  if ((statSync(key).mode & 0o007) !== 0 && process.getuid !== undefined)
    warn(`Every user of this machine can read the key ${key}. Set its rights by chmod 600 ${key}`);
  return { cert, key: secret, minVersion: "TLSv1.2" };
}

function covers(certificate: X509Certificate, name: string): boolean {
  const address = name.replace(/^\[(.*)\]$/, "$1");
  return isIP(address) === 0 ? certificate.checkHost(name) !== undefined : certificate.checkIP(address) !== undefined;
}

const day = (time: number): string => new Date(time).toISOString().slice(0, 10);

function read(path: string, what: string): Buffer {
  try {
    return readFileSync(path);
  } catch (error) {
    throw new Fault("no-such-file", `The ${what} ${path} cannot be read: ${(error as Error).message}`);
  }
}

function parsed<T>(path: string, place: string, accepted: string, parse: () => T): T {
  try {
    return parse();
  } catch {
    // What the library says of it can hold a piece of the key.
    throw refusal(place, path, accepted);
  }
}

const refusal = (place: string, value: string, accepted: string): Fault =>
  new Fault("bad-input", "The certificate or its key cannot be used.", [{ place, value, accepted }]);
