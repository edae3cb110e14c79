import { createHash } from "node:crypto";
import { readdir, readFile } from "node:fs/promises";
import { basename, join } from "node:path";
import type { ListedStudy } from "../../viewer/api/studies.ts";
import { Fault } from "../errors.ts";
import { parseJson } from "../intake/json.ts";

/** The studies in a folder, one folder a group: `harrowfen/cold-store-4`. */
export interface StudyShelf {
  list(): Promise<ListedStudy[]>;
  /** @throws {Fault} `no-such-study` */
  read(id: string): Promise<unknown>;
  /** The bytes of a file beside the studies, by its name and digest; `null` if there is none. */
  file(wanted: { readonly name: string; readonly sha256: string }): Promise<Uint8Array | null>;
}

/** A study's JSON has a title and a model; other JSON may lie beside it. */
function isStudy(document: unknown): document is { title: string; model: string; laboratory?: string; notes?: string } {
  const { title, model, inputs } = (document ?? {}) as Record<string, unknown>;
  return typeof title === "string" && typeof model === "string" && typeof inputs === "object";
}

export function studyShelf(folder: string): StudyShelf {
  const idPattern = /^[\w-]+\/[\w.-]+$/;
  return {
    async list() {
      const groups = await readdir(folder, { withFileTypes: true }).catch(() => []);
      const studies: ListedStudy[] = [];
      for (const group of groups
        .filter((entry) => entry.isDirectory())
        .map(({ name }) => name)
        .toSorted()) {
        for (const file of (await readdir(join(folder, group))).filter((name) => name.endsWith(".json")).toSorted()) {
          const document = parseJson(await readFile(join(folder, group, file)), file);
          // A model in a file is for the command line: the page runs registered models only.
          if (!isStudy(document) || /\.[a-z]+$/.test(document.model)) continue;
          const { title, model, laboratory = null, notes = null } = document;
          studies.push({ id: `${group}/${file.slice(0, -".json".length)}`, group, title, model, laboratory, notes });
        }
      }
      return studies;
    },
    async read(id) {
      const missing = new Fault("no-such-study", `There is no study ${JSON.stringify(id)}.`);
      if (!idPattern.test(id) || id.includes("..")) throw missing;
      const bytes = await readFile(join(folder, `${id}.json`)).catch(() => {
        throw missing;
      });
      return parseJson(bytes, id);
    },
    async file({ name, sha256 }) {
      if (name !== basename(name) || name.startsWith(".")) return null;
      const groups = await readdir(folder, { withFileTypes: true }).catch(() => []);
      for (const group of groups.filter((entry) => entry.isDirectory())) {
        const bytes = await readFile(join(folder, group.name, name)).catch(() => null);
        if (bytes !== null && createHash("sha256").update(bytes).digest("hex") === sha256) return bytes;
      }
      return null;
    },
  };
}
