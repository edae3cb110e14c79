import { existsSync } from "node:fs";
import { join } from "node:path";
import { Fault } from "./errors.ts";
import { packageRoot } from "./root-folder.ts";

export { packageRoot };

/** A built file of this installation, by its name in `dist/`. @throws {Fault} `internal` if nothing is built */
export function builtFile(name: string): string {
  const file = join(packageRoot(), "dist", name);
  if (!existsSync(file)) throw new Fault("internal", "Trialband is not built: run npm run build.");
  return file;
}
