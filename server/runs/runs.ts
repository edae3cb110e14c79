import { randomUUID } from "node:crypto";
import { LRUCache } from "lru-cache";
import { prepare, type RunRecord, type Study } from "../../engine/index.ts";
import { type Accumulation } from "../../engine/internal.ts";
import type { RemovedRun, RunEvent, RunHead } from "../../viewer/api/runs.ts";
import { Fault, reportOf, type FaultReport } from "../errors.ts";
import { loadStudyDocument, type LoadedStudy } from "../shelves/study.ts";
import { readWritten } from "../record/written.ts";
import type { Ending } from "../store/runs.ts";
import type { StartKey } from "../store/start-keys.ts";
import type { Store } from "../store/store.ts";
import { carryOut } from "./carry-out.ts";
import { FairQueue } from "./fair-queue.ts";
import type { Fleet } from "./far-drawing.ts";
import { requireFewInputs, requireRoom, USUAL_LIMITS, type RunLimits } from "./limits.ts";
import type { Assembler } from "./assembly/assembler.ts";
import { finishedEvent, hasEnded, lastEvent, liveRun, tell, type LiveRun } from "./live-run.ts";
import type { Pool } from "./pool/pool.ts";
import { runStudy } from "./run-study.ts";
import { Samples } from "./samples.ts";
import { inTodaysFormat } from "./todays-format.ts";

/** In whose name a run is asked for. */
export interface Asked {
  /** Whose turn it takes in the queue. */
  readonly requester: string;
  /** The user, if the server knows its users: the audit trail names them. */
  readonly actor: string | null;
  /** By which the same request, sent again, is known: it starts no second run. */
  readonly key?: StartKey;
  /** Which study of the laboratory's own it is a version of, as `AcceptedRun` has it. */
  readonly own?: string;
}

/** A run whole. */
export type WholeRun = RunHead & {
  readonly document: Study;
  readonly record: RunRecord | null;
  readonly error: FaultReport | null;
};

interface ReadBody {
  readonly study: Study;
  readonly record: RunRecord | null;
  readonly error: FaultReport | null;
}

/** Runs whose record stays in memory after a request. */
const BODIES_KEPT = 8;
/** Runs whose model stays loaded. */
const MODELS_KEPT = 128;
const LONGEST_NOTE = 500;
/** Seconds that a run is taken to last before one has ended. */
const FIRST_GUESS = 10;
const LONGEST_RETRY = 600;

/** The runs of one server: starts, follows, cancels and finds them. What is kept of them is in the store alone. */
export class Runs {
  readonly #pool: () => Promise<Pool>;
  readonly #fleet: (() => Promise<Fleet>) | undefined;
  readonly #store: Store;
  readonly #warn: (message: string) => void;
  readonly #limits: RunLimits;
  readonly #assembler: Assembler | undefined;
  readonly #live = new Map<string, LiveRun>();
  readonly #queue = new FairQueue<LiveRun>();
  readonly #samples = new Samples();
  readonly #bodies = new LRUCache<string, ReadBody>({ max: BODIES_KEPT });
  /** Studies of runs that this server accepted, with their models: a run loads its model once. */
  readonly #loaded = new LRUCache<string, LoadedStudy>({ max: MODELS_KEPT });
  #going = 0;
  #stopped = false;
  /** Seconds that runs have lasted lately. */
  #usual = FIRST_GUESS;

  /**
   * @param assembler assembles records on another thread; without one this thread does
   * @param fleet draws on other machines, in place of the pool
   */
  constructor(
    pool: () => Promise<Pool>,
    store: Store,
    warn: (message: string) => void = () => undefined,
    limits: Partial<RunLimits> = {},
    assembler?: Assembler,
    fleet?: () => Promise<Fleet>,
  ) {
    this.#pool = pool;
    this.#fleet = fleet;
    this.#store = store;
    this.#warn = warn;
    this.#limits = { ...USUAL_LIMITS, ...limits };
    this.#assembler = assembler;
  }

  /**
   * Looks whether another program has restored a backup while this server goes on: the runs in it that had not ended are
   * taken up as at a start.
   */
  lookElsewhere(): void {
    if (this.#stopped || !this.#store.changedElsewhere()) return;
    this.#bodies.clear();
    this.restore();
  }

  /** Takes up the runs that an earlier server has left, each from its last checkpoint. */
  restore(): void {
    for (const { head, requester } of this.#store.unfinished()) {
      if (this.#live.has(head.id)) continue;
      const run = liveRun({ ...head, state: "waiting" });
      this.#live.set(head.id, run);
      this.#queue.add(requester, run);
    }
    this.#next();
  }

  /**
   * The run that a request has started before, as its key shows, whatever became of the run; `null` if it is new.
   *
   * @throws {Fault} `key-used`: the key came with another request
   */
  startedBy({ actor, key }: Asked): string | null {
    return key === undefined ? null : this.#store.startedBy(actor, key);
  }

  /**
   * Accepts a run. Once this returns, the run is in the store and survives a crash.
   *
   * @param study id of the listed study, if it is one
   * @throws {Fault | InputError | ModelError} what can be found wrong without a trial; `too-large`; `queue-full`;
   *   `cannot-keep` if the store cannot take it
   */
  async start(loaded: LoadedStudy, study: string | null = null, asked?: Asked): Promise<string> {
    requireFewInputs(loaded.study);
    const prepared = prepare(loaded.model, loaded.study);
    requireRoom(prepared, this.#limits);
    const { waiting, atOnce } = this.#limits;
    if (this.#queue.size >= waiting) {
      const wait = Math.min(LONGEST_RETRY, Math.max(1, Math.ceil(this.#usual / atOnce)));
      throw new Fault("queue-full", `${waiting} runs wait already; try again in about ${wait} s.`, [], wait);
    }
    const { requester = "", actor = null, key, own } = asked ?? {};
    const id = randomUUID();
    const head = this.#store.accept({
      id,
      study: loaded.study,
      listed: study,
      limit: prepared.limit,
      requester,
      actor,
      ...(key === undefined ? {} : { key }),
      ...(own === undefined ? {} : { own }),
    });
    const run = liveRun(head);
    this.#live.set(id, run);
    this.#loaded.set(id, { ...loaded, prepared });
    this.#queue.add(requester, run);
    this.#next();
    return id;
  }

  /** Newest first. */
  list(): RunHead[] {
    return this.#store.heads().map((head) => this.#asItIs(head));
  }

  /** Runs that were taken off the list, the last first. */
  removed(): RemovedRun[] {
    return this.#store.removed();
  }

  /** What a list shows of a run. @throws {Fault} `no-such-run` */
  get(id: string): RunHead {
    const head = this.#store.head(id);
    if (head === null) throw new Fault("no-such-run", `There is no run ${id}.`);
    return this.#asItIs(head);
  }

  /** A run whole. @throws {Fault} `no-such-run`; `internal` if what is kept was altered */
  async read(id: string): Promise<WholeRun> {
    const head = this.get(id);
    const ending = this.#live.get(id)?.ending;
    const { study, record, error } = await this.#body(id);
    const own = ending?.record ?? null;
    return {
      ...head,
      document: study,
      record: own === null ? record : readWritten(own),
      error: ending?.error ?? error,
    };
  }

  /** Cancels a run that waits or goes on; one that has ended stays as it is. @throws {Fault} `no-such-run` */
  cancel(id: string, actor: string | null = null): void {
    this.get(id);
    const run = this.#live.get(id);
    if (run === undefined) return;
    run.cancelledBy = actor;
    run.abort.abort();
    if (!this.#queue.remove(run)) return;
    const error = reportOf(new Fault("cancelled", "The run was cancelled before it began."));
    this.#end(run, { state: "cancelled", trials: run.head.trials, verdict: null, record: null, error });
  }

  /** Stops what goes on, for a server that stops: each run goes on from where it is with the next server. */
  stop(): void {
    for (const run of this.#live.values()) run.keepNow();
    this.#stopped = true;
    this.#queue.clear();
    for (const { abort } of this.#live.values()) abort.abort();
  }

  /** Takes a run that has ended off the list; it can be brought back. @throws {Fault} as `removeRun` */
  async remove(id: string, actor: string | null = null): Promise<void> {
    this.#keepAgain(id);
    this.#store.remove(id, actor);
    this.#samples.forget(id);
    this.#loaded.delete(id);
  }

  /** Undoes a removal. @throws {Fault} `no-such-run` */
  async bringBack(id: string, actor: string | null = null): Promise<void> {
    this.#store.bringBack(id, actor);
  }

  /**
   * Writes a note beside a run that has ended; an empty one takes it away.
   *
   * @param expected the version that the writer has seen; `null` writes over any
   * @throws {Fault} as `writeNote`
   */
  async annotate(id: string, note: string, expected: number | null = null, actor: string | null = null): Promise<void> {
    if (note.length > LONGEST_NOTE) {
      throw new Fault("bad-input", "The note cannot be kept.", [
        { place: "note", value: `${note.length} characters`, accepted: `at most ${LONGEST_NOTE} characters` },
      ]);
    }
    this.#keepAgain(id);
    this.#store.annotate(id, note.trim() === "" ? null : note.trim(), expected, actor);
  }

  /**
   * Sends `follower` the state of the run, then every event. The last event is finished, failed or
   * cancelled.
   *
   * @returns a function that stops following
   * @throws {Fault} `no-such-run`
   */
  follow(id: string, follower: (event: RunEvent) => void): () => void {
    const head = this.get(id);
    follower({ type: "progress", trials: head.trials, limit: head.limit });
    const run = this.#live.get(id);
    if (run !== undefined && !hasEnded(head)) {
      run.followers.add(follower);
      return () => run.followers.delete(follower);
    }
    let following = true;
    void this.read(id).then(
      (whole) => following && follower(lastEvent(whole)),
      (error: unknown) => following && follower({ type: "failed", error: reportOf(error), notKept: null }),
    );
    return () => (following = false);
  }

  /** The sample of a finished run; drawn again if it is no longer available. @throws {Fault} */
  async sample(id: string): Promise<Accumulation> {
    const head = this.get(id);
    if (head.state !== "finished") throw new Fault("not-finished", `Run ${id} is ${head.state}, not finished.`);
    return this.#samples.of(id, async () => {
      return runStudy(await this.#loadedOf(id), { pool: this.#pool });
    });
  }

  /** A head of the store with what only this server has of the run. */
  #asItIs(head: RunHead): RunHead {
    const run = this.#live.get(head.id);
    if (run === undefined) return head;
    const { state, trials, limit, verdict, notKept } = run.head;
    return { ...head, state, trials, limit, verdict, notKept };
  }

  async #body(id: string): Promise<ReadBody> {
    const known = this.#bodies.get(id);
    if (known !== undefined) return known;
    const found = this.#store.read(id);
    if (found === null) throw new Fault("no-such-run", `There is no run ${id}.`);
    const body = { ...found, record: await inTodaysFormat(found.record, id) };
    if (hasEnded(this.get(id)) && this.#live.get(id) === undefined) this.#bodies.set(id, body);
    return body;
  }

  /** The study with its model; of what the store has, registered models alone: its file cannot name code to run. */
  async #loadedOf(id: string): Promise<LoadedStudy> {
    const found = this.#loaded.get(id);
    if (found !== undefined) return found;
    const loaded = await loadStudyDocument((await this.#body(id)).study, null);
    this.#loaded.set(id, loaded);
    return loaded;
  }

  #next(): void {
    while (!this.#stopped && this.#going < this.#limits.atOnce) {
      const run = this.#queue.take();
      if (run === undefined) return;
      this.#going += 1;
      void this.#carryOut(run).finally(() => {
        this.#going -= 1;
        this.#next();
      });
    }
  }

  async #carryOut(run: LiveRun): Promise<void> {
    const { id } = run.head;
    const started = performance.now();
    const { ending, finished } = await carryOut(run, {
      pool: this.#pool,
      assembler: this.#assembler,
      fleet: this.#fleet,
      store: this.#store,
      limits: this.#limits,
      warn: this.#warn,
      load: () => this.#loadedOf(id),
    });
    if (finished !== null) {
      this.#samples.keep(id, finished);
      this.#usual = (this.#usual + (performance.now() - started) / 1000) / 2;
    }
    this.#end(run, ending);
  }

  #end(run: LiveRun, ending: Ending): void {
    if (this.#stopped) return;
    const { state, trials, verdict } = ending;
    run.ending = ending;
    run.head = { ...run.head, state, trials, verdict };
    this.#keep(run);
    const { record, error } = ending;
    const { notKept } = run.head;
    tell(run, record === null ? lastEvent({ ...run.head, record, error }) : finishedEvent(record, notKept));
    run.followers.clear();
  }

  /** Gives the end of a run to the store. What it cannot take stays here, says so, and is tried again. */
  #keep(run: LiveRun): void {
    const { id } = run.head;
    try {
      if (!this.#store.end(id, run.ending!, run.ending!.state === "cancelled" ? run.cancelledBy : null))
        this.#warn(`Run ${id} is no longer in the store, and was not kept.`);
      this.#live.delete(id);
    } catch (cause) {
      const message = cause instanceof Error ? cause.message : String(cause);
      if (run.head.notKept === null) this.#warn(`Run ${id} could not be kept: ${message}`);
      run.head = { ...run.head, notKept: message };
      setTimeout(() => {
        if (!this.#stopped && this.#live.has(id)) this.#keep(run);
      }, this.#limits.keepAgainEvery).unref();
    }
  }

  /** A run that could not be kept is tried to be kept before something is written beside it. @throws {Fault} `cannot-keep` */
  #keepAgain(id: string): void {
    const run = this.#live.get(id);
    if (run === undefined || run.ending === null) return;
    this.#keep(run);
    if (this.#live.has(id)) throw new Fault("cannot-keep", run.head.notKept ?? `Run ${id} could not be kept.`);
  }
}
