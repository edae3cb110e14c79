import { writeFile, mkdtemp, rm } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Model } from "../../../engine/index.ts";
import type { Program } from "../../../engine/internal.ts";
import { moduleScope, programOfModel } from "../../../server/programs/index.ts";
import { ACCESSOR } from "../../../server/programs/module-access.ts";
import { bundleModule } from "../../../server/shelves/bundle.ts";

export interface LoadedModule {
  readonly exported: Readonly<Record<string, unknown>>;
  readonly programOf: (model: Model) => Program | null;
}

/** A module of this text, bundled and loaded as that of a user's own model. */
export async function moduleFrom(text: string): Promise<LoadedModule> {
  const folder = await mkdtemp(join(tmpdir(), "trialband-programs-"));
  try {
    const file = join(folder, "model.ts");
    await writeFile(file, text);
    const { url, source } = await bundleModule(file);
    const exported = await importByHost(url);
    const scope = moduleScope({ source, valueOf: exported[ACCESSOR] as (name: string) => unknown });
    return { exported, programOf: (model) => programOfModel(model, scope) };
  } finally {
    await rm(folder, { recursive: true });
  }
}

/** A module by the host itself: the test runner rewrites the text of what it imports. */
export async function importByHost(url: string): Promise<Readonly<Record<string, unknown>>> {
  const folder = await mkdtemp(join(tmpdir(), "trialband-import-"));
  try {
    const file = join(folder, "import.cjs");
    await writeFile(file, "module.exports = (url) => import(url);");
    const importing = createRequire(import.meta.url)(file) as (url: string) => Promise<Record<string, unknown>>;
    return await importing(url);
  } finally {
    await rm(folder, { recursive: true });
  }
}
