import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { Fault } from "./errors.ts";

/** The folder of this installation: the nearest one above this module that holds a package.json. */
export function packageRoot(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, "package.json"))) {
    const parent = dirname(folder);
    if (parent === folder) throw new Error("the installation has lost its package.json");
    folder = parent;
  }
  return folder;
}

/** A built file of this installation, by its name in `dist/`. @throws {Fault} `internal` if nothing is built */
export function builtFile(name: string): string {
  const file = join(packageRoot(), "dist", name);
  if (!existsSync(file)) throw new Fault("internal", "Trialband is not built: run npm run build.");
  return file;
}
