import { createHash, createPrivateKey, createPublicKey, generateKeyPairSync, sign, verify } from "node:crypto";
import { Fault } from "../errors.ts";

/** A detached signature: it signs the bytes of the record's file. */
export interface DetachedSignature {
  readonly format: "trialband-signature/1";
  readonly algorithm: "Ed25519 (RFC 8032)";
  /** PEM, SubjectPublicKeyInfo. Proves nothing of itself: the reader must know whose it is. */
  readonly publicKey: string;
  /** Base64. */
  readonly signature: string;
}

/** A new pair of keys, as PEM texts. */
export function makeKeys(): { readonly privateKey: string; readonly publicKey: string } {
  const { privateKey, publicKey } = generateKeyPairSync("ed25519");
  return {
    privateKey: privateKey.export({ type: "pkcs8", format: "pem" }) as string,
    publicKey: publicKey.export({ type: "spki", format: "pem" }) as string,
  };
}

/** @throws {Fault} a key that is no Ed25519 private key */
export function signText(text: string, privateKey: string): DetachedSignature {
  const key = keyFrom(() => createPrivateKey(privateKey), "private");
  return {
    format: "trialband-signature/1",
    algorithm: "Ed25519 (RFC 8032)",
    publicKey: createPublicKey(key).export({ type: "spki", format: "pem" }) as string,
    signature: sign(null, Buffer.from(text), key).toString("base64"),
  };
}

/**
 * Whether a signature is that of the text.
 *
 * @param publicKey the key that must have signed; without one, that in the signature itself
 * @throws {Fault} a signature or key that cannot be read
 */
export function signatureHolds(text: string, document: unknown, publicKey?: string): boolean {
  const { format, publicKey: own, signature } = (document ?? {}) as Partial<DetachedSignature>;
  if (format !== "trialband-signature/1" || typeof own !== "string" || typeof signature !== "string") {
    throw new Fault("bad-input", "The signature file is not one that trialband sign wrote.");
  }
  const key = keyFrom(() => createPublicKey(publicKey ?? own), "public");
  return verify(null, Buffer.from(text), key, Buffer.from(signature, "base64"));
}

/** SHA-256 of a public key (SubjectPublicKeyInfo, DER), by which people compare keys. @throws {Fault} a key that cannot be read */
export const keyDigest = (publicKey: string): string =>
  createHash("sha256")
    .update(keyFrom(() => createPublicKey(publicKey), "public").export({ type: "spki", format: "der" }))
    .digest("hex");

function keyFrom<K extends { asymmetricKeyType?: string }>(make: () => K, kind: string): K {
  let key: K | undefined;
  try {
    key = make();
  } catch {
    // reported below
  }
  if (key?.asymmetricKeyType === "ed25519") return key;
  throw new Fault("bad-input", `The ${kind} key is not an Ed25519 key in PEM form, as trialband keys writes.`);
}
