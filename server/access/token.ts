import { createHash, randomBytes, timingSafeEqual } from "node:crypto";
import { Fault } from "../errors.ts";
import { readSecretFile } from "./secret-file.ts";

/** RFC 6750, 2.1: b64token. */
const FORM = /^[A-Za-z0-9\-._~+/]+=*$/;
const SHORTEST = 32;

export const TOKEN_VARIABLE = "TRIALBAND_TOKEN";

/** A token of 256 random bits. */
export const newToken = (): string => randomBytes(32).toString("base64url");

/**
 * The token of a file, or else of the environment, from which it is taken away so that no other process inherits it.
 *
 * @returns `null` if neither has one
 * @throws {Fault} `no-such-file`; `bad-input`: rights that let others read it, or a token that can be guessed, never with it
 */
export function readToken(file: string | undefined, environment: NodeJS.ProcessEnv = process.env): string | null {
  const given = environment[TOKEN_VARIABLE];
  delete environment[TOKEN_VARIABLE];
  if (file !== undefined) return checked(readSecretFile(file, "the file of the token").trim(), file);
  return given === undefined || given === "" ? null : checked(given, TOKEN_VARIABLE);
}

function checked(token: string, place: string): string {
  if (token.length >= SHORTEST && FORM.test(token)) return token;
  throw new Fault("bad-input", "The token cannot be used.", [
    {
      place,
      value: `${token.length} characters${FORM.test(token) ? "" : ", some of another kind"}`,
      accepted: `at least ${SHORTEST} of A–Z, a–z, 0–9 and - . _ ~ + /; trialband token FILE makes one`,
    },
  ]);
}

/** Compares with the token in a time that does not depend on where the two differ. */
export function tokenCheck(token: string): (given: string) => boolean {
  const digest = (text: string): Buffer => createHash("sha256").update(text).digest();
  const expected = digest(token);
  return (given) => timingSafeEqual(digest(given), expected);
}
