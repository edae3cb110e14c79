import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { packageRoot } from "../package-root.ts";
import { readStored, type BuiltPrograms } from "../programs/stored.ts";
import { buildFacts } from "../record/build-facts.ts";

let read: BuiltPrograms | null | undefined;

/** Digest of the sources that programs are made of. */
export const sourcesOfPrograms = (): string => `${buildFacts.engineDigest} ${buildFacts.modelsDigest}`;

/** The programs of this build; `null` for code that runs unbuilt, whose models may be others by now. */
export function builtPrograms(): BuiltPrograms | null {
  if (read === undefined) {
    const file = join(packageRoot(), "dist/programs.json");
    const built = buildFacts.modelsDigest !== "unbuilt" && existsSync(file);
    read = built ? readStored(readFileSync(file, "utf8"), sourcesOfPrograms()) : null;
  }
  return read;
}
