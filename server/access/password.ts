import { randomBytes, scrypt, timingSafeEqual } from "node:crypto";
import { Fault } from "../errors.ts";

/** What scrypt costs: RFC 7914, 2. */
export interface Cost {
  readonly N: number;
  readonly r: number;
  readonly p: number;
}

/** A password as it is kept: nothing of it can be read, and trying one costs what its parameters say. */
export interface HashedPassword {
  readonly scrypt: Cost;
  /** Base64. */
  readonly salt: string;
  /** Base64. */
  readonly hash: string;
}

/** One of the settings of equal strength that the OWASP Password Storage Cheat Sheet lists; 32 MiB, so that runs beside it keep their memory. */
const USUAL: Cost = { N: 2 ** 15, r: 8, p: 3 };
/** Beyond this a file could have a sign-in take all memory. */
const MOST_MEMORY = 2 ** 28;
const SALT = 16;
const LENGTH = 32;

/** Characters a password must have at least, and may have at most. */
const SHORTEST = 12;
const LONGEST = 200;

/**
 * @param name of the user: a password that says it is guessed first
 * @throws {Fault} `bad-input`, without the password
 */
export function requireFit(password: string, name: string): void {
  const length = [...password].length;
  const accepted = `${SHORTEST} to ${LONGEST} characters, not the name`;
  if (length < SHORTEST || length > LONGEST) throw passwordRefused(`${length} characters`, accepted);
  if (password.toLowerCase() === name.toLowerCase()) throw passwordRefused("the name", accepted);
  // oxlint-disable-next-line no-control-regex -- these are the characters that are looked for
  if (/[\u0000-\u001f\u007f]/.test(password)) throw passwordRefused("a control character", accepted);
}

/** @param got what was typed, in words that do not say it */
export const passwordRefused = (got: string, accepted: string): Fault =>
  new Fault("bad-input", "The password cannot be used.", [{ place: "the password", value: got, accepted }]);

export async function hashPassword(password: string, cost: Cost = USUAL): Promise<HashedPassword> {
  const salt = randomBytes(SALT);
  return { scrypt: cost, salt: salt.toString("base64"), hash: (await derive(password, salt, cost)).toString("base64") };
}

/** Whether a password is the one that is kept; takes the same time either way. */
export async function isPassword(password: string, kept: HashedPassword): Promise<boolean> {
  const hash = Buffer.from(kept.hash, "base64");
  return timingSafeEqual(await derive(password, Buffer.from(kept.salt, "base64"), kept.scrypt), hash);
}

/** Whether the parameters are ones that scrypt takes, within bounds. */
export const isCost = ({ N, r, p }: Cost): boolean =>
  Number.isInteger(Math.log2(N)) && N >= 2 && r >= 1 && p >= 1 && p <= 16 && 128 * N * r <= MOST_MEMORY;

/** Stands in for the password of a name that nobody has, so that its answer takes as long as any other. */
export const nobodysPassword = (cost: Cost = USUAL): HashedPassword => ({
  scrypt: cost,
  salt: randomBytes(SALT).toString("base64"),
  hash: randomBytes(LENGTH).toString("base64"),
});

const derive = (password: string, salt: Buffer, { N, r, p }: Cost): Promise<Buffer> =>
  new Promise((resolve, reject) => {
    // One password typed on two keyboards may come as different code points: NIST SP 800-63B, 5.1.1.2, has NFKC.
    scrypt(password.normalize("NFKC"), salt, LENGTH, { N, r, p, maxmem: 2 * MOST_MEMORY }, (error, key) => {
      if (error === null) resolve(key);
      else reject(error);
    });
  });
