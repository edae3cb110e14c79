import { createHash } from "node:crypto";
import canonicalize from "canonicalize";

/**
 * JSON in one form only: keys sorted by code unit, no white space, numbers as ECMAScript writes them. Two documents with
 * the same content have the same text, so a digest of it is a digest of the content.
 *
 * Source: RFC 8785, JSON Canonicalization Scheme.
 *
 * @throws {Error} NaN, an infinity, a lone surrogate, a circle: none has a canonical form
 */
export function canonicalJson(value: unknown): string {
  const text = canonicalize(value);
  if (text === undefined) throw new Error(`${typeof value} has no JSON`);
  return text;
}

/** SHA-256 of a value's canonical JSON, in hexadecimal. @throws {Error} as `canonicalJson` */
export const digestOf = (value: unknown): string => createHash("sha256").update(canonicalJson(value)).digest("hex");
