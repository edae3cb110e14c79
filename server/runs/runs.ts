import { randomUUID } from "node:crypto";
import { LRUCache } from "lru-cache";
import { assembleRecord, type Accumulation, type Prepared, type RunRecord } from "../../engine/index.ts";
import type { RunEvent, RunHead, RunState } from "../../viewer/api/runs.ts";
import { Fault, reportOf } from "../errors.ts";
import type { KeptStudy, LoadedStudy } from "../shelves/study.ts";
import type { Pool } from "./pool/pool.ts";
import { runStudy, type FinishedRun } from "./run-study.ts";
import type { RunBody, RunStore } from "./store/run-store.ts";

type Held = Pick<FinishedRun, "gathered" | "release">;

/** A run that waits or goes on, or that the store could not keep: held whole. One that is kept is held as its head alone. */
interface Run {
  head: RunHead;
  body: RunBody | null;
  readonly abort: AbortController;
  readonly followers: Set<(event: RunEvent) => void>;
  /** Settles when what was last given to the store is there. */
  kept: Promise<void>;
}

/** Runs that may go on at once share the workers; more wait their turn. */
const AT_ONCE = 2;
const MOST_WAITING = 100;
/** Runs whose whole sample is kept in memory; an older one is drawn again on request and reproduces exactly, bit for bit. */
const SAMPLES_KEPT = 3;
/** Milliseconds after which the memory of a sample that is no longer kept serves another run. */
const RELEASE_AFTER = 2000;
/** Runs whose record stays in memory after a request. */
const BODIES_KEPT = 8;
/** Runs whose model stays loaded: all that may wait or go on, and some that have ended. */
const MODELS_KEPT = MOST_WAITING + AT_ONCE + 32;
const LONGEST_NOTE = 500;
const STOPPED = "The server was stopped before this run had ended. Run it again: the same seed gives the same trials.";
const SNAPSHOT_EVERY = 300;
const PROGRESS_EVERY = 100;

const ended = ({ state }: RunHead): boolean => state !== "waiting" && state !== "running";

/** The runs of one server: starts, follows, cancels and remembers them. */
export class Runs {
  readonly #pool: () => Promise<Pool>;
  readonly #store: RunStore;
  readonly #warn: (message: string) => void;
  readonly #runs = new Map<string, Run>();
  readonly #waiting: Run[] = [];
  readonly #samples = new LRUCache<string, Promise<Held>>({ max: SAMPLES_KEPT, dispose: releaseLater });
  readonly #bodies = new LRUCache<string, RunBody>({ max: BODIES_KEPT });
  /** Studies of runs that this server accepted, with their models: a run loads its model once. */
  readonly #loaded = new LRUCache<string, LoadedStudy>({ max: MODELS_KEPT });
  #going = 0;
  /** Runs that are being written, before their place in the queue. */
  #accepting = 0;
  #stopped = false;

  constructor(pool: () => Promise<Pool>, store: RunStore, warn: (message: string) => void = () => undefined) {
    this.#pool = pool;
    this.#store = store;
    this.#warn = warn;
  }

  /** Takes in the runs the store has kept. One that was going on when the server stopped has failed. */
  async restore(): Promise<void> {
    for (const head of await this.#store.heads()) {
      const run: Run = {
        head,
        body: null,
        abort: new AbortController(),
        followers: new Set(),
        kept: Promise.resolve(),
      };
      this.#runs.set(head.id, run);
      if (!ended(head)) await this.#giveUp(run);
    }
  }

  /** A run that an earlier server did not bring to its end. */
  async #giveUp(run: Run): Promise<void> {
    run.head = { ...run.head, state: "failed" };
    try {
      const { loaded } = await this.#body(run);
      const body: RunBody = { loaded, record: null, error: reportOf(new Fault("worker-lost", STOPPED)) };
      this.#bodies.delete(run.head.id);
      if (!(await this.#save(run, run.head, body))) run.body = body;
    } catch (error) {
      this.#runs.delete(run.head.id);
      this.#warn(messageOf(error));
    }
  }

  /**
   * Accepts a run. Once this returns, the run is in the store and survives a crash.
   *
   * @param study id of the listed study, if it is one
   * @throws {Fault} `busy` if too many runs wait, `cannot-keep` if the store cannot take it
   */
  async start(loaded: LoadedStudy, study: string | null = null): Promise<string> {
    if (this.#waiting.length + this.#accepting >= MOST_WAITING)
      throw new Fault("busy", `${MOST_WAITING} runs are waiting already; try again when some have ended.`);
    const { study: stated, reference } = loaded;
    const { title, model, trials, maximumTrials } = stated;
    const run: Run = {
      head: {
        id: randomUUID(),
        title,
        model,
        state: "waiting",
        startedAt: new Date().toISOString(),
        trials: 0,
        limit: trials === "adaptive" ? maximumTrials : trials,
        verdict: null,
        study,
        studyVersion: 1,
        note: null,
        noteVersion: 0,
        notKept: null,
      },
      body: { loaded: { study: stated, reference }, record: null, error: null },
      abort: new AbortController(),
      followers: new Set(),
      kept: Promise.resolve(),
    };
    this.#accepting += 1;
    try {
      await this.#store.save({ head: run.head, body: run.body! });
    } catch (cause) {
      throw new Fault("cannot-keep", `The run was not started, for it could not be kept: ${messageOf(cause)}`);
    } finally {
      this.#accepting -= 1;
    }
    this.#runs.set(run.head.id, run);
    this.#loaded.set(run.head.id, loaded);
    this.#waiting.push(run);
    this.#next();
    return run.head.id;
  }

  /** Newest first. */
  list(): RunHead[] {
    return Array.from(this.#runs.values(), ({ head }) => head).toReversed();
  }

  /** What a list shows of a run. @throws {Fault} `no-such-run` */
  get(id: string): RunHead {
    return this.#find(id).head;
  }

  /** A run whole. @throws {Fault} `no-such-run` */
  async read(id: string): Promise<RunHead & RunBody> {
    const run = this.#find(id);
    const body = await this.#body(run);
    return { ...run.head, ...body };
  }

  /** Cancels a run that waits or goes on; one that has ended stays as it is. @throws {Fault} `no-such-run` */
  cancel(id: string): void {
    const run = this.#find(id);
    run.abort.abort();
    const place = this.#waiting.indexOf(run);
    if (place >= 0) {
      this.#waiting.splice(place, 1);
      void this.#end(run, "cancelled", {
        error: reportOf(new Fault("cancelled", "The run was cancelled before it began.")),
      });
    }
  }

  /**
   * Releases every run that waits or goes on, for a server that stops: what is kept of them stays as it is, and the
   * next server marks them as stopped before their end.
   */
  stop(): void {
    this.#stopped = true;
    this.#waiting.length = 0;
    for (const { abort } of this.#runs.values()) abort.abort();
  }

  /** Forgets a run that has ended, its record too. @throws {Fault} `no-such-run`, or `not-finished` if it is still running */
  async remove(id: string): Promise<void> {
    const run = this.#find(id);
    if (!ended(run.head))
      throw new Fault("not-finished", `Run ${id} is ${run.head.state}: cancel it before it is removed.`);
    // Behind what was given to the store before, and from now on nobody finds the run to give it more.
    this.#runs.delete(id);
    run.kept = run.kept.then(() => this.#store.remove(id));
    await run.kept.catch((cause: unknown) => {
      run.kept = Promise.resolve();
      this.#runs.set(id, run);
      throw new Fault("cannot-write", `Run ${id} could not be removed: ${messageOf(cause)}`);
    });
    this.#bodies.delete(id);
    this.#samples.delete(id);
    this.#loaded.delete(id);
  }

  /** Writes a note beside a run that has ended; an empty one takes it away. @throws {Fault} */
  async annotate(id: string, note: string): Promise<void> {
    const run = this.#find(id);
    if (note.length > LONGEST_NOTE) {
      throw new Fault("bad-input", "The note cannot be kept.", [
        { place: "note", value: `${note.length} characters`, accepted: `at most ${LONGEST_NOTE} characters` },
      ]);
    }
    if (!ended(run.head))
      throw new Fault("not-finished", `Run ${id} is ${run.head.state}: a note can be written once it has ended.`);
    const body = await this.#body(run);
    // It may have been removed while its body was read.
    this.#find(id);
    const head = { ...run.head, note: note.trim() === "" ? null : note.trim() };
    run.kept = run.kept.then(() => this.#store.save({ head, body }));
    await run.kept.catch((cause: unknown) => {
      run.kept = Promise.resolve();
      throw new Fault("cannot-write", `The note could not be kept: ${messageOf(cause)}`);
    });
    run.head = head;
  }

  /**
   * Sends `follower` the state of the run, then every event. The last event is finished, failed or
   * cancelled.
   *
   * @returns a function that stops following
   * @throws {Fault} `no-such-run`
   */
  follow(id: string, follower: (event: RunEvent) => void): () => void {
    const run = this.#find(id);
    follower({ type: "progress", trials: run.head.trials, limit: run.head.limit });
    if (!ended(run.head)) {
      run.followers.add(follower);
      return () => run.followers.delete(follower);
    }
    let following = true;
    void this.#body(run).then(
      (body) => following && follower(lastEvent(run.head, body)),
      (error: unknown) => following && follower({ type: "failed", error: reportOf(error) }),
    );
    return () => (following = false);
  }

  /** The sample of a finished run; drawn again if it is no longer available. @throws {Fault} */
  async sample(id: string): Promise<Accumulation> {
    const run = this.#find(id);
    if (run.head.state !== "finished") throw new Fault("not-finished", `Run ${id} is ${run.head.state}, not finished.`);
    const found = this.#samples.get(id);
    if (found !== undefined) return (await found).gathered;
    const again = this.#body(run).then(({ loaded }) => runStudy(this.#loadedOf(id, loaded), { pool: this.#pool }));
    this.#samples.set(id, again);
    again.catch(() => this.#samples.delete(id));
    return (await again).gathered;
  }

  /** The study with its model, if this server has it loaded; else as it was kept. */
  #loadedOf(id: string, kept: KeptStudy): KeptStudy | LoadedStudy {
    return this.#loaded.get(id) ?? kept;
  }

  #find(id: string): Run {
    const run = this.#runs.get(id);
    if (run === undefined) throw new Fault("no-such-run", `There is no run ${id}.`);
    return run;
  }

  /** A run's body, from memory if it is there, else from the store. @throws {Fault} */
  async #body({ head: { id }, body }: Run): Promise<RunBody> {
    const found = body ?? this.#bodies.get(id);
    if (found !== undefined) return found;
    const stored = await this.#store.load(id).catch((cause: unknown) => {
      throw new Fault("internal", `What is kept of run ${id} cannot be read: ${messageOf(cause)}`);
    });
    if (stored === null) throw new Fault("no-such-run", `What was kept of run ${id} is no longer there.`);
    this.#bodies.set(id, stored.body);
    return stored.body;
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
    const { loaded } = run.body!;
    const { id } = run.head;
    run.head = { ...run.head, state: "running" };
    let told = 0;
    let shown = performance.now();
    const onProgress = (gathered: Accumulation, prepared: Prepared): void => {
      const { trials } = gathered;
      const { limit } = prepared;
      run.head = { ...run.head, trials, limit };
      const now = performance.now();
      if (now - told < PROGRESS_EVERY || run.followers.size === 0) return;
      told = now;
      tell(run, { type: "progress", trials, limit });
      if (now - shown < SNAPSHOT_EVERY) return;
      tell(run, { type: "snapshot", record: assembleRecord(prepared, gathered, false) });
      // From the end of the work, so that a costly snapshot does not crowd out the trials.
      shown = performance.now();
    };
    try {
      const finished = await runStudy(this.#loadedOf(id, loaded), {
        pool: this.#pool,
        signal: run.abort.signal,
        onProgress,
      });
      this.#samples.set(id, Promise.resolve(finished));
      await this.#end(run, "finished", { record: finished.record });
    } catch (error) {
      const report = reportOf(error);
      await this.#end(run, report.code === "cancelled" ? "cancelled" : "failed", { error: report });
    }
  }

  async #end(
    run: Run,
    state: RunState,
    { record = null, error = null }: Partial<Pick<RunBody, "record" | "error">>,
  ): Promise<void> {
    if (this.#stopped) return;
    const body: RunBody = { loaded: run.body!.loaded, record, error };
    const head: RunHead = {
      ...run.head,
      state,
      trials: record?.trials.count ?? run.head.trials,
      verdict: verdictOf(record),
    };
    // A run counts as ended once it is kept; a full disk must not lose the result a person waits for.
    const kept = await this.#save(run, head, body);
    this.#bodies.set(head.id, body);
    run.head = head;
    run.body = kept ? null : body;
    tell(run, lastEvent(head, body));
    run.followers.clear();
  }

  /** Gives a run to the store, behind what was given before. @returns whether it is kept */
  async #save(run: Run, head: RunHead, body: RunBody): Promise<boolean> {
    let kept = true;
    run.kept = run.kept
      .then(() => this.#store.save({ head, body }))
      .catch((cause: unknown) => {
        kept = false;
        this.#warn(`Run ${head.id} could not be kept: ${messageOf(cause)}`);
      });
    await run.kept;
    return kept;
  }
}

/** Later, so that a reader who was given the sample a moment ago can still use it. */
function releaseLater(sample: Promise<Held>): void {
  setTimeout(
    () =>
      void sample.then(
        ({ release }) => release(),
        () => undefined,
      ),
    RELEASE_AFTER,
  ).unref();
}

const messageOf = (cause: unknown): string => (cause instanceof Error ? cause.message : String(cause));

function tell(run: Run, event: RunEvent): void {
  for (const follower of run.followers) follower(event);
}

function lastEvent({ state, trials }: RunHead, { record, error }: RunBody): RunEvent {
  switch (state) {
    case "finished":
      return { type: "finished", record: record! };
    case "cancelled":
      return { type: "cancelled", trials };
    default:
      return { type: "failed", error: error! };
  }
}

/** The verdict at a glance: of the first measurand that is not validated, that the trials do not decide, or of the first. */
function verdictOf(record: RunRecord | null): RunHead["verdict"] {
  if (record === null) return null;
  const all = Object.entries(record.measurands).map(([measurand, { validation }]) => ({
    measurand,
    validated: validation.validated,
    firm: validation.firm,
    ...(validation.nothingVaries === true ? { nothingVaries: true as const } : {}),
  }));
  return all.find(({ validated, firm }) => !validated && firm) ?? all.find(({ firm }) => !firm) ?? all[0] ?? null;
}
