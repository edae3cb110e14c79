import { sortedSample, type Sample } from "../../../engine/statistics/sample.ts";
import { prepare, type RunRecord } from "../../../engine/index.ts";
import { Fault, type FaultReport } from "../../../server/errors.ts";
import type { KeptRuns } from "../../../server/routes/route.ts";
import type { RemovedRun, RunEvent, RunHead, RunState } from "../../../viewer/api/runs.ts";
import type { LoadedStudy } from "../../../server/shelves/study.ts";
import { partOf, RECORDS } from "./fixed-records.ts";

interface FixedRun {
  readonly id: string;
  readonly study: string;
  readonly loaded: LoadedStudy | null;
  readonly full: RunRecord;
  readonly followers: Set<(event: RunEvent) => void>;
  batches: number;
  state: RunState;
  error: FaultReport | null;
  notKept: string | null;
}

/** Takes the place of the server's runs behind its routes: each ends with a fixed record, and goes on when a test says so. */
export class FixedRuns implements KeptRuns {
  readonly #runs = new Map<string, FixedRun>();
  readonly #removed = new Map<string, FixedRun>();

  /** Forgets every run. */
  protected forget(): void {
    this.#runs.clear();
    this.#removed.clear();
  }

  /** A run that has already finished; returns its id. */
  addFinished(study: string): string {
    return this.#add(study, null, "finished").id;
  }

  /** Makes batches of the newest run. */
  advance(batches: number): void {
    const run = this.#newest();
    run.state = "running";
    run.batches += batches;
    const record = partOf(run.full, run.batches);
    this.#tell(run, { type: "progress", trials: record.trials.count, limit: limitOf(run.full) });
    this.#tell(run, { type: "snapshot", record });
  }

  /** Ends the newest run with its record. @param notKept why the store could not keep it */
  finish(notKept: string | null = null): void {
    this.#newest().notKept = notKept;
    this.#end(this.#newest(), "finished");
  }

  /** Ends the newest run with an error. */
  fail(error: FaultReport): void {
    const run = this.#newest();
    run.error = error;
    this.#end(run, "failed");
  }

  get newestState(): RunState {
    return this.#newest().state;
  }

  startedBy(): null {
    return null;
  }

  async start(loaded: LoadedStudy, study: string | null = null): Promise<string> {
    // What can be found wrong without a trial is refused, as `Runs` refuses it.
    prepare(loaded.model, loaded.study);
    const id = study ?? Object.keys(RECORDS).find((key) => RECORDS[key]!.study.title === loaded.study.title);
    if (id === undefined || RECORDS[id] === undefined)
      throw new Fault("internal", `No record is fixed for the study ${loaded.study.title}.`);
    return this.#add(id, loaded, "waiting").id;
  }

  list(): RunHead[] {
    return Array.from(this.#runs.values(), headOf).toReversed();
  }

  get(id: string): RunHead {
    return headOf(this.#find(id));
  }

  read(id: string): ReturnType<KeptRuns["read"]> {
    const run = this.#find(id);
    const record = run.state === "finished" ? run.full : null;
    return Promise.resolve({ ...headOf(run), document: run.loaded?.study ?? run.full.study, record, error: run.error });
  }

  cancel(id: string): void {
    this.#end(this.#find(id), "cancelled");
  }

  remove(id: string): Promise<void> {
    this.#removed.set(id, this.#find(id));
    this.#runs.delete(id);
    return Promise.resolve();
  }

  removed(): RemovedRun[] {
    return [...this.#removed.values()]
      .map((run) => ({ ...headOf(run), removedAt: "2026-03-02T10:00:00.000Z", removedBy: null }))
      .toReversed();
  }

  bringBack(id: string): Promise<void> {
    const run = this.#removed.get(id);
    if (run === undefined) return Promise.reject(new Fault("no-such-run", `There is no run ${id}.`));
    this.#removed.delete(id);
    this.#runs.set(id, run);
    return Promise.resolve();
  }

  annotate(): Promise<void> {
    return Promise.reject(new Fault("cannot-write", "Fixed runs take no notes."));
  }

  follow(id: string, follower: (event: RunEvent) => void): () => void {
    const run = this.#find(id);
    const { trials, limit } = headOf(run);
    follower({ type: "progress", trials, limit });
    const last = lastEvent(run);
    if (last === null) run.followers.add(follower);
    else queueMicrotask(() => follower(last));
    return () => run.followers.delete(follower);
  }

  /** A sample with the counts of its record's histogram, its values evenly spaced within each bin. */
  sample(id: string): ReturnType<KeptRuns["sample"]> {
    const { full } = this.#find(id);
    return Promise.resolve({ sample: (name: string) => sampleOf(full.measurands[name]!.monteCarlo) });
  }

  #find(id: string): FixedRun {
    const run = this.#runs.get(id);
    if (run === undefined) throw new Fault("no-such-run", `There is no run ${id}.`);
    return run;
  }

  #newest(): FixedRun {
    return [...this.#runs.values()].at(-1)!;
  }

  #add(study: string, loaded: LoadedStudy | null, state: RunState): FixedRun {
    const id = `r${this.#runs.size + 1}`;
    const run = {
      id,
      study,
      loaded,
      full: RECORDS[study]!,
      batches: 0,
      state,
      error: null,
      notKept: null,
      followers: new Set<never>(),
    };
    this.#runs.set(id, run);
    return run;
  }

  #tell({ followers }: FixedRun, event: RunEvent): void {
    for (const follower of followers) follower(event);
  }

  #end(run: FixedRun, state: RunState): void {
    run.state = state;
    this.#tell(run, lastEvent(run)!);
    run.followers.clear();
  }
}

const limitOf = ({ study, trials }: RunRecord): number =>
  study.trials === "adaptive" ? study.maximumTrials : trials.count;

const trialsOf = ({ state, full, batches }: FixedRun): number =>
  state === "finished" ? full.trials.count : batches === 0 ? 0 : partOf(full, batches).trials.count;

function headOf(run: FixedRun): RunHead {
  const { id, study, full, state } = run;
  const [[measurand, { validation }]] = Object.entries(full.measurands) as [[string, RunRecord["measurands"][string]]];
  return {
    id,
    title: full.study.title,
    model: full.model.id,
    state,
    startedAt: "2026-03-02T09:30:00.000Z",
    trials: trialsOf(run),
    limit: limitOf(full),
    verdict: state === "finished" ? { measurand, validated: validation.validated } : null,
    study,
    studyVersion: 1,
    own: null,
    note: null,
    noteVersion: 0,
    notKept: run.notKept,
  };
}

function lastEvent(run: FixedRun): RunEvent | null {
  if (run.state === "finished") return { type: "finished", record: run.full, notKept: run.notKept };
  if (run.state === "failed") return { type: "failed", error: run.error!, notKept: null };
  return run.state === "cancelled" ? { type: "cancelled", trials: trialsOf(run), notKept: null } : null;
}

function sampleOf({ histogram }: RunRecord["measurands"][string]["monteCarlo"]): Sample {
  const { low, width, counts, below, above } = histogram;
  const values = [
    ...Array.from({ length: below }, () => low),
    ...counts.flatMap((count, bin) => Array.from({ length: count }, (_, i) => low + (bin + (i + 0.5) / count) * width)),
    ...Array.from({ length: above }, () => low + counts.length * width),
  ];
  return sortedSample(Float64Array.from(values));
}
