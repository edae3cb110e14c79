import { randomUUID } from "node:crypto";
import { assembleRecord, type Accumulation, type Prepared, type RunRecord } from "../engine/index.ts";
import { Fault, reportOf, type FaultReport } from "./errors.ts";
import type { LoadedStudy } from "./loading/study.ts";
import type { Pool } from "./pool/pool.ts";
import { runStudy } from "./run-study.ts";
import type { RunStore, StoredRun } from "./store/run-store.ts";

export type RunState = "waiting" | "running" | "finished" | "failed" | "cancelled";

/** What a follower of a run is told. */
export type RunEvent =
  | { readonly type: "progress"; readonly trials: number; readonly limit: number }
  | { readonly type: "snapshot"; readonly record: RunRecord }
  | { readonly type: "finished"; readonly record: RunRecord }
  | { readonly type: "failed"; readonly error: FaultReport }
  | { readonly type: "cancelled"; readonly trials: number };

interface Run {
  readonly id: string;
  readonly startedAt: string;
  readonly loaded: LoadedStudy;
  state: RunState;
  trials: number;
  limit: number;
  record: RunRecord | null;
  error: FaultReport | null;
  readonly abort: AbortController;
  readonly followers: Set<(event: RunEvent) => void>;
}

export interface RunSummary {
  readonly id: string;
  readonly title: string;
  readonly model: string;
  readonly state: RunState;
  readonly startedAt: string;
  readonly trials: number;
  readonly limit: number;
  readonly verdict: { readonly measurand: string; readonly validated: boolean } | null;
}

/** Runs that may go on at once share the workers; more wait their turn. */
const AT_ONCE = 2;
const MOST_WAITING = 100;
/** Runs whose whole sample is kept at hand; an older one is drawn again when asked for, with the same bits. */
const SAMPLES_KEPT = 3;
const SNAPSHOT_EVERY = 300;
const PROGRESS_EVERY = 100;

/** The runs of one server: starts, follows, cancels and remembers them. */
export class Runs {
  readonly #pool: () => Promise<Pool>;
  readonly #store: RunStore;
  readonly #warn: (message: string) => void;
  readonly #runs = new Map<string, Run>();
  readonly #waiting: Run[] = [];
  readonly #samples = new Map<string, Promise<Accumulation>>();
  #going = 0;

  constructor(pool: () => Promise<Pool>, store: RunStore, warn: (message: string) => void = () => undefined) {
    this.#pool = pool;
    this.#store = store;
    this.#warn = warn;
  }

  /** Takes in the runs the store has kept. */
  async restore(): Promise<void> {
    for (const { id, startedAt, loaded, state, trials, limit, record, error } of await this.#store.all()) {
      this.#runs.set(id, { id, startedAt, loaded, state, trials, limit, record, error, abort: new AbortController(), followers: new Set() });
    }
  }

  /** @throws {Fault} `busy` when too many runs wait */
  start(loaded: LoadedStudy): string {
    if (this.#waiting.length >= MOST_WAITING) throw new Fault("busy", `${MOST_WAITING} runs are waiting already; try again when some have ended.`);
    const { study } = loaded;
    const run: Run = {
      id: randomUUID(),
      startedAt: new Date().toISOString(),
      loaded,
      state: "waiting",
      trials: 0,
      limit: study.trials === "adaptive" ? study.maximumTrials : study.trials,
      record: null,
      error: null,
      abort: new AbortController(),
      followers: new Set(),
    };
    this.#runs.set(run.id, run);
    this.#waiting.push(run);
    this.#next();
    return run.id;
  }

  /** Newest first. */
  list(): RunSummary[] {
    return [...this.#runs.values()].toReversed().map((run) => ({
      id: run.id,
      title: run.loaded.study.title,
      model: run.loaded.study.model,
      state: run.state,
      startedAt: run.startedAt,
      trials: run.trials,
      limit: run.limit,
      verdict: verdictOf(run.record),
    }));
  }

  /** @throws {Fault} `no-such-run` */
  get(id: string): Readonly<Pick<Run, "id" | "state" | "trials" | "limit" | "record" | "error" | "startedAt" | "loaded">> {
    const run = this.#runs.get(id);
    if (run === undefined) throw new Fault("no-such-run", `There is no run ${id}.`);
    return run;
  }

  /** Cancels a run that waits or goes on; one that has ended stays as it is. @throws {Fault} `no-such-run` */
  cancel(id: string): void {
    const run = this.get(id) as Run;
    run.abort.abort();
    const place = this.#waiting.indexOf(run);
    if (place >= 0) {
      this.#waiting.splice(place, 1);
      void this.#end(run, "cancelled", { error: reportOf(new Fault("cancelled", "The run was cancelled before it began.")) });
    }
  }

  /**
   * Tells `follower` how the run stands, then everything that happens to it. The last event is finished, failed or
   * cancelled.
   *
   * @returns a function that stops following
   */
  follow(id: string, follower: (event: RunEvent) => void): () => void {
    const run = this.get(id) as Run;
    follower({ type: "progress", trials: run.trials, limit: run.limit });
    const last = lastEvent(run);
    if (last !== null) {
      follower(last);
      return () => undefined;
    }
    run.followers.add(follower);
    return () => run.followers.delete(follower);
  }

  /** The sample of a finished run; drawn again where it is no longer at hand. @throws {Fault} */
  sample(id: string): Promise<Accumulation> {
    const run = this.get(id);
    if (run.state !== "finished") return Promise.reject(new Fault("not-finished", `Run ${id} is ${run.state}, not finished.`));
    const found = this.#samples.get(id);
    if (found !== undefined) return found;
    const again = runStudy(run.loaded, { pool: this.#pool }).then(({ gathered }) => gathered);
    this.#keep(id, again);
    again.catch(() => this.#samples.delete(id));
    return again;
  }

  #keep(id: string, sample: Promise<Accumulation>): void {
    this.#samples.set(id, sample);
    if (this.#samples.size > SAMPLES_KEPT) this.#samples.delete(this.#samples.keys().next().value!);
  }

  #next(): void {
    while (this.#going < AT_ONCE && this.#waiting.length > 0) {
      const run = this.#waiting.shift()!;
      this.#going += 1;
      void this.#carryOut(run).finally(() => {
        this.#going -= 1;
        this.#next();
      });
    }
  }

  async #carryOut(run: Run): Promise<void> {
    run.state = "running";
    let told = 0;
    let shown = performance.now();
    const onProgress = (gathered: Accumulation, prepared: Prepared): void => {
      run.trials = gathered.trials;
      run.limit = prepared.limit;
      const now = performance.now();
      if (now - told < PROGRESS_EVERY || run.followers.size === 0) return;
      told = now;
      tell(run, { type: "progress", trials: run.trials, limit: run.limit });
      if (now - shown < SNAPSHOT_EVERY) return;
      tell(run, { type: "snapshot", record: assembleRecord(prepared, gathered, false) });
      // From the end of the work, so that a costly snapshot does not crowd out the trials.
      shown = performance.now();
    };
    try {
      const { record, gathered } = await runStudy(run.loaded, { pool: this.#pool, signal: run.abort.signal, onProgress });
      this.#keep(run.id, Promise.resolve(gathered));
      await this.#end(run, "finished", { record });
    } catch (error) {
      const report = reportOf(error);
      await this.#end(run, report.code === "cancelled" ? "cancelled" : "failed", { error: report });
    }
  }

  async #end(run: Run, state: StoredRun["state"], outcome: { record?: RunRecord; error?: FaultReport }): Promise<void> {
    run.record = outcome.record ?? null;
    run.error = outcome.error ?? null;
    if (run.record !== null) run.trials = run.record.trials.count;
    const { id, startedAt, trials, limit, loaded, record, error } = run;
    const stored: StoredRun = { id, title: loaded.study.title, model: loaded.study.model, state, startedAt, trials, limit, loaded, record, error };
    // A run counts as ended once it is kept; a full disk must not lose the result a person waits for.
    await this.#store.save(stored).catch((cause: unknown) => this.#warn(`Run ${id} could not be kept: ${cause instanceof Error ? cause.message : String(cause)}`));
    run.state = state;
    tell(run, lastEvent(run)!);
    run.followers.clear();
  }
}

function tell(run: Run, event: RunEvent): void {
  for (const follower of run.followers) follower(event);
}

function lastEvent(run: Run): RunEvent | null {
  switch (run.state) {
    case "finished":
      return { type: "finished", record: run.record! };
    case "failed":
      return { type: "failed", error: run.error! };
    case "cancelled":
      return { type: "cancelled", trials: run.trials };
    default:
      return null;
  }
}

/** The verdict at a glance: of the first measurand that is not validated, or of the first. */
function verdictOf(record: RunRecord | null): RunSummary["verdict"] {
  if (record === null) return null;
  const all = Object.entries(record.measurands).map(([measurand, { validation }]) => ({ measurand, validated: validation.validated }));
  return all.find(({ validated }) => !validated) ?? all[0] ?? null;
}
