import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { SealedRecord } from "../../engine/index.ts";
import type { Run, RunHead } from "../../viewer/api/runs.ts";
import { openStore } from "../../server/store/open-store.ts";
import { ask } from "./asking.ts";
import { numbers } from "./chance.ts";
import { startServing, type ServingProcess } from "./serving.ts";

/** What was done and found. */
export interface KillCounts {
  readonly kills: number;
  readonly runs: number;
  readonly notes: number;
  readonly removals: number;
  readonly broughtBack: number;
  /** Runs that a kill met while they waited or went on, and that ended later. */
  readonly interrupted: number;
  /** Everything acknowledged that is not as it was acknowledged. Empty: nothing was lost. */
  readonly lost: readonly string[];
}

/** What the server has acknowledged of a run, and what it was asked for when it was killed. */
interface Known {
  readonly id: string;
  readonly seed: string;
  readonly trials: number;
  note: string | null;
  removed: boolean;
  /** Notes that were not acknowledged, since the last one that was: each may be there or not. */
  readonly openNotes: Set<string>;
  /** Whether a removal, or its undoing, was not acknowledged. */
  unsure: boolean;
}

const STUDY = "verdicts/another-factor";
/** From a run that ends at once to one that several kills meet. */
const TRIALS = [20_000, 20_000, 20_000, 20_000, 50_000, 50_000, 300_000, 2_000_000];
const SEEDS = ["one"];
/** Requests between a start and a kill, five more at least. */
const MOST_ACTS = 20;
/** Milliseconds into a request that a kill comes at most. */
const LONGEST_ACT = 40;

/**
 * Starts, annotates, removes and brings back runs, and kills the server at random moments. At the end every
 * acknowledged run, note and removal is accounted for, and every run of one study has one set of results, bit for bit,
 * whether kills met it or not.
 */
export async function killCampaign(kills: number, seed: number): Promise<KillCounts> {
  const folder = mkdtempSync(join(tmpdir(), "trialband-kills-"));
  const random = numbers(seed);
  const known: Known[] = [];
  const count = { notes: 0, removals: 0, broughtBack: 0 };
  const interrupted = new Set<string>();
  const lost: string[] = [];
  try {
    for (let i = 0; i < kills; i++) {
      const server = await startServing(folder, "--checkpoint-every", "0.2");
      const open = await whileItGoes(server, async () => {
        const found = await openOf(server.url);
        const acts = 5 + Math.floor(random() * MOST_ACTS);
        for (let act = 0; act < acts; act++) {
          await actOnce(server.url, known, random, count);
          if (random() < 0.15) await oneMoreEnds(server.url);
        }
        return found;
      });
      // The last one is under way when the server ends, before, in or after what it does.
      const last = actOnce(server.url, known, random, count).catch(() => undefined);
      await new Promise((resolve) => setTimeout(resolve, random() * LONGEST_ACT));
      await server.kill();
      await last;
      for (const id of open) interrupted.add(id);
    }
    const server = await startServing(folder);
    try {
      lost.push(...(await whileItGoes(server, () => accountFor(server, known))));
    } finally {
      await server.stop();
    }
    const store = openStore({ folder });
    lost.push(...store.audit().problems);
    store.close();
  } finally {
    rmSync(folder, { recursive: true });
  }
  return { kills, runs: known.length, ...count, interrupted: interrupted.size, lost };
}

const listOf = async (url: string): Promise<RunHead[]> => (await ask(url, "GET", "runs")).json() as RunHead[];

const openOf = async (url: string): Promise<string[]> =>
  (await listOf(url)).filter(({ state }) => state === "waiting" || state === "running").map(({ id }) => id);

/** Work with a server that should go on meanwhile. @throws {Error} with what it printed, if it ended by itself */
async function whileItGoes<T>({ process, said }: ServingProcess, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (cause) {
    const { exitCode, signalCode } = process;
    if (exitCode === null && signalCode === null) throw cause;
    throw new Error(`the server ended by itself (${signalCode ?? exitCode}): ${said()}`, { cause });
  }
}

/** Settles once there is one run less that waits or goes on. */
async function oneMoreEnds(url: string): Promise<void> {
  const { length } = await openOf(url);
  if (length === 0) return;
  while ((await openOf(url)).length >= length) await new Promise((resolve) => setTimeout(resolve, 20));
}

/** One request; what it changes is noted as open before and as acknowledged after. */
async function actOnce(
  url: string,
  known: Known[],
  random: () => number,
  count: { notes: number; removals: number; broughtBack: number },
): Promise<void> {
  const pick = <T>(of: readonly T[]): T => of[Math.floor(random() * of.length)]!;
  const dice = random();
  if (dice < 0.3 || known.length === 0) {
    const [seed, trials] = [pick(SEEDS), pick(TRIALS)];
    const answer = await ask(url, "POST", "runs", { study: STUDY, seed, trials });
    if (answer.status !== 202) return;
    const { id } = answer.json() as { id: string };
    known.push({ id, seed, trials, note: null, removed: false, openNotes: new Set(), unsure: false });
    return;
  }
  const run = pick(known);
  if (dice < 0.6) {
    const note = `note ${Math.floor(random() * 1e6)} \u2028 here`;
    run.openNotes.add(note);
    const answer = await ask(url, "PUT", `kept-runs/${run.id}/note`, { note });
    if (!answer.ok) return void run.openNotes.delete(note);
    run.note = note;
    run.openNotes.clear();
    count.notes += 1;
    return;
  }
  const remove = dice < 0.85;
  const { unsure } = run;
  run.unsure = true;
  const answer = await (remove
    ? ask(url, "DELETE", `kept-runs/${run.id}`)
    : ask(url, "POST", `kept-runs/${run.id}/undo-removal`));
  run.unsure = answer.ok ? false : unsure;
  if (!answer.ok) return;
  run.removed = remove;
  count[remove ? "removals" : "broughtBack"] += 1;
}

/** Waits until every run has ended, and holds what is there against what was acknowledged. */
async function accountFor({ url }: ServingProcess, known: readonly Known[]): Promise<string[]> {
  const lost: string[] = [];
  for (let open = await openOf(url); open.length > 0; open = await openOf(url))
    await new Promise((resolve) => setTimeout(resolve, 100));
  const heads = new Map((await listOf(url)).map((head) => [head.id, head]));
  const results = new Map<string, { readonly id: string; readonly digest: string }>();
  for (const run of known) {
    const { id } = run;
    const head = heads.get(id);
    if (head === undefined) {
      if (!run.removed && !run.unsure) lost.push(`run ${id} is not there`);
      continue;
    }
    if (run.removed && !run.unsure) lost.push(`run ${id} was removed and is back`);
    if (head.note !== run.note && !run.openNotes.has(head.note ?? ""))
      lost.push(`run ${id}: the note is ${String(head.note)}; expected ${String(run.note)}`);
    if (head.state !== "finished") {
      lost.push(`run ${id} is ${head.state}; expected finished`);
      continue;
    }
    const { record } = (await ask(url, "GET", `runs/${id}`)).json() as Run;
    const digest = resultsIn(record);
    const key = `${run.seed}, ${run.trials} trials`;
    const same = results.get(key);
    if (same === undefined) results.set(key, { id, digest });
    else if (same.digest !== digest) lost.push(`run ${id} differs from run ${same.id}: ${key}`);
  }
  return [...lost, ...(await heldAgainstUninterrupted(url, results))];
}

/** Digest of what a repetition must give again. */
const resultsIn = (record: Run["record"]): string => (record as SealedRecord | null)?.seal.results ?? "none";

/** Runs each study once more, without a kill. */
async function heldAgainstUninterrupted(
  url: string,
  results: ReadonlyMap<string, { readonly id: string; readonly digest: string }>,
): Promise<string[]> {
  const differing: string[] = [];
  for (const [key, { id, digest }] of results) {
    const [seed, trials] = key.split(", ") as [string, string];
    const started = await ask(url, "POST", "runs", { study: STUDY, seed, trials: Number.parseInt(trials, 10) });
    const again = (started.json() as { id: string }).id;
    for (;;) {
      const run = (await ask(url, "GET", `runs/${again}`)).json() as Run;
      if (run.state === "waiting" || run.state === "running") {
        await new Promise((resolve) => setTimeout(resolve, 50));
        continue;
      }
      if (resultsIn(run.record) !== digest) differing.push(`run ${id} differs from one without a kill: ${key}`);
      break;
    }
  }
  return differing;
}
