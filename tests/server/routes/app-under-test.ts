import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll } from "vitest";
import { createApp } from "../../../server/app.ts";
import { openPool } from "../../../server/runs/pool/pool.ts";
import { Runs } from "../../../server/runs/runs.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { openStore } from "../../../server/store/open-store.ts";

/** The whole application in memory, with the examples on its shelf and an empty store that goes when the file is done. */
export function appUnderTest(): { readonly app: ReturnType<typeof createApp>; readonly runs: Runs } {
  const folder = mkdtempSync(join(tmpdir(), "trialband-routes-"));
  const store = openStore({ folder });
  const runs = new Runs(() => openPool(1), store);
  const shelf = studyShelf(new URL("../../../examples", import.meta.url).pathname);
  afterAll(() => rmSync(folder, { recursive: true }));
  return { runs, app: createApp({ runs, shelf, desk: store.desk, workers: 1, page: "/nowhere", hosts: null }) };
}
