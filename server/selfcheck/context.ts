import { readFile } from "node:fs/promises";
import { join } from "node:path";
import type { RunRecord, StudyDocument } from "../../engine/index.ts";
import { parseJson } from "../intake/json.ts";
import { loadStudyDocument } from "../shelves/study.ts";
import { packageRoot } from "../package-root.ts";
import { openPool, type Pool } from "../runs/pool/pool.ts";
import { runStudy } from "../runs/run-study.ts";
import type { CheckContext } from "./check.ts";

/** JCGM 101:2008, 7.2: M at least 10⁴/(1 − p), which is 200 000 at 95 %. */
export const QUICK_TRIALS = 200_000;

export interface ContextOptions {
  readonly quick: boolean;
  readonly workers: number;
  readonly signal: AbortSignal | undefined;
  /** Another seed than each study's own: other draws, and tolerances then fail as often as they state. */
  readonly seed: string | undefined;
}

/** What the checks run on: this installation's own examples, models and workers. */
export function openContext({
  quick,
  workers,
  signal,
  seed,
}: ContextOptions): CheckContext & { close(): Promise<void> } {
  let opening: Promise<Pool> | undefined;
  const pool = (): Promise<Pool> => (opening ??= openPool(workers));
  // Several groups check the same run.
  const runs = new Map<string, Promise<RunRecord>>();

  const run = (document: StudyDocument): Promise<RunRecord> => {
    const asked = {
      ...document,
      ...(seed === undefined ? {} : { seed: `${seed} ${document.seed ?? ""}`.slice(0, 200) }),
    };
    const key = JSON.stringify(asked);
    const known = runs.get(key);
    if (known !== undefined) return known;
    const found = loadStudyDocument(asked, null).then(
      async (loaded) => (await runStudy(loaded, { pool, signal })).record,
    );
    runs.set(key, found);
    return found;
  };

  return {
    quick,
    signal,
    workers,
    pool,
    run,
    async example(name, changes = {}) {
      const file = join(packageRoot(), "examples/published", `${name}.json`);
      const document = parseJson(await readFile(file), file) as StudyDocument;
      return run({ ...document, ...(quick ? { trials: QUICK_TRIALS } : {}), ...changes });
    },
    async close() {
      await (await opening?.catch(() => undefined))?.close();
    },
  };
}
