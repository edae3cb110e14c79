import { createHash } from "node:crypto";

/**
 * Digest of a model's bundle without the compiler's remarks on where each file lay. These depend on the folder in which it
 * was bundled; without them two machines that have the same model get the same digest.
 */
export const namedDigest = (source: string): string =>
  createHash("sha256")
    .update(source.replaceAll(/^\/\/ \S*\.[cm]?[jt]s\n/gm, ""))
    .digest("hex");
