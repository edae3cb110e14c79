import type { Draft as FiledDraft, DraftHead, DraftSent } from "../../api/drafts.ts";
import { writeAddress } from "../address.ts";
import { discardDraft, RequestError, writeDraft } from "../api.ts";
import { keptAsDraft, type Draft } from "../new-study/draft.ts";

/** The study that is being written, with what it will become. */
export interface Kept {
  readonly id: string;
  /** Id of the own study that it becomes a version of, or `null`. */
  readonly own: string | null;
  /** Whether it becomes a study of its own, whatever its title. */
  readonly copy: boolean;
  /** Revision that the server has; 0 before it has any. */
  readonly revision: number;
  readonly form: Draft;
}

/** Where what was written last is: nothing changed yet, on its way, with the server, or in this browser alone. */
export type Whereabouts = "unchanged" | "sending" | "kept" | "here" | "nowhere";

const CURRENT = "trialband-draft";
const UNSENT = "trialband-drafts-unsent";
/** Pause in typing after which the server gets the draft, and time after which it is asked again, in milliseconds. */
const PAUSE = 500;
const RETRY = 4000;

function read(place: string): unknown {
  try {
    return JSON.parse(localStorage.getItem(place) ?? "null") as unknown;
  } catch {
    return null;
  }
}

/** @returns whether the browser keeps it: some keep nothing, or have no room */
function write(place: string, value: unknown): boolean {
  try {
    localStorage.setItem(place, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

/** Also on a page that is not served over TLS, where the browser makes no UUID. */
const newId = (): string =>
  [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, "0")).join("");

function asKept(value: unknown): Kept | null {
  if (typeof value !== "object" || value === null) return null;
  const { id, own, copy, revision, form } = value as Partial<Kept>;
  // An earlier version of this page kept the form alone.
  if (typeof id !== "string") {
    const alone = keptAsDraft(value);
    return alone === null ? null : { id: newId(), own: null, copy: false, revision: 0, form: alone };
  }
  const draft = keptAsDraft(form);
  return draft === null ? null : { id, own: own ?? null, copy: copy === true, revision: revision ?? 0, form: draft };
}

const stored = read(CURRENT);
let current: Kept | null = asKept(stored);
const unsent = new Map<string, Kept>(
  (Array.isArray(read(UNSENT)) ? (read(UNSENT) as unknown[]) : [])
    .map(asKept)
    .filter((one) => one !== null)
    .map((one) => [one.id, one]),
);
// What an earlier version of the page kept in this browser alone goes to the server too.
if (current !== null && !("id" in (stored as object))) unsent.set(current.id, current);
let whereabouts: Whereabouts = current === null || current.revision === 0 ? "unchanged" : "kept";
let listener: () => void = () => undefined;
let timer: ReturnType<typeof setTimeout> | undefined;
/** The draft that is on its way to the server. */
let sending: Promise<void> | null = null;

const say = (now: Whereabouts): void => {
  whereabouts = now;
  listener();
};

function keepHere(): boolean {
  const there = write(CURRENT, current);
  return write(UNSENT, [...unsent.values()]) && there;
}

/** The study that is being written, or `null`. */
export const keptDraft = (): Kept | null => current;

/** Where what was written last is; `changed` is called whenever that changes. */
export const whereDraftIs = (): Whereabouts => whereabouts;
export const watchDraft = (changed: () => void): void => void (listener = changed);

/** Begins another draft. What was written of the one before is on its way to the server, or waits for it here. */
export function beginDraft(form: Draft, own: string | null): Kept {
  current = { id: newId(), own, copy: false, revision: 0, form };
  keepHere();
  say("unchanged");
  return current;
}

/** Goes on with a draft of the server's; changes of it that are only here yet are not given up. */
export function goOnWith(filed: FiledDraft): Kept {
  const { draft, copy } = filed.form as { readonly draft?: unknown; readonly copy?: unknown };
  const form = keptAsDraft(draft) ?? keptAsDraft({})!;
  current = unsent.get(filed.id) ?? {
    id: filed.id,
    own: filed.own,
    copy: copy === true,
    revision: filed.revision,
    form,
  };
  keepHere();
  say(unsent.has(filed.id) ? "sending" : "kept");
  return current;
}

/** Keeps the form as it is now: here at once, with the server soon. @returns whether this browser keeps it */
export const keepDraft = (form: Draft): boolean => change({ form });

/** States whether the draft becomes a study of its own. */
export const keepAsCopy = (copy: boolean): boolean => change({ copy });

function change(part: Partial<Kept>): boolean {
  current = { ...(current ?? { id: newId(), own: null, copy: false, revision: 0, form: keptAsDraft({})! }), ...part };
  unsent.set(current.id, current);
  const kept = keepHere();
  // From now on its address leads back to it, also when the page is loaded anew.
  if (location.hash === writeAddress({ kind: "new" }))
    history.replaceState(null, "", writeAddress({ kind: "draft", id: current.id }));
  say("sending");
  soon(PAUSE);
  return kept;
}

/**
 * After its study was run: the next one begins afresh. The draft leaves the list, but stays where its address leads, for
 * who goes back. A server that does not answer leaves it on the list.
 */
export async function putAway(kept: Kept): Promise<void> {
  unsent.delete(kept.id);
  if (current?.id === kept.id) current = null;
  keepHere();
  say("unchanged");
  try {
    await writeDraft(kept.id, bodyOf(kept), null);
    await discardDraft(kept.id);
  } catch (error) {
    if (!(error instanceof RequestError)) throw error;
  }
}

const bodyOf = ({ form, own, copy }: Kept): DraftSent => ({ title: form.title, own, form: { draft: form, copy } });

/** Sends what an earlier visit could not. */
export const sendUnsent = (): void => {
  if (unsent.size > 0) soon(0);
};

function soon(pause: number): void {
  clearTimeout(timer);
  timer = setTimeout(() => void sendNext(), pause);
}

/** Sends what waits now and does not wait for the pause in typing: for lists that shall have it. Each is tried once. */
export async function sendWaiting(): Promise<void> {
  // What is on its way may be older than what was typed last.
  await sending;
  for (let left = unsent.size; left > 0 && unsent.size > 0; left -= 1) await sendNext();
}

function sendNext(): Promise<void> {
  sending ??= sendFirst().finally(() => (sending = null));
  return sending;
}

async function sendFirst(): Promise<void> {
  const next = unsent.values().next().value;
  if (next === undefined) return;
  try {
    sent(next, await writeDraft(next.id, bodyOf(next), next.revision));
  } catch (error) {
    if (!(error instanceof RequestError)) throw error;
    refused(next, error);
  }
  if (unsent.size > 0) soon(whereabouts === "here" ? RETRY : 0);
}

function sent(one: Kept, head: DraftHead): void {
  // What was typed meanwhile goes with the next.
  if (unsent.get(one.id) === one) unsent.delete(one.id);
  else if (unsent.has(one.id)) unsent.set(one.id, { ...unsent.get(one.id)!, revision: head.revision });
  if (current?.id === one.id) current = { ...current, revision: head.revision };
  const kept = keepHere();
  if (current?.id === one.id) say(kept || !unsent.has(one.id) ? (unsent.has(one.id) ? "sending" : "kept") : "nowhere");
}

function refused(one: Kept, { status }: RequestError): void {
  if (status === 412 || status === 404) {
    // Somebody else has written it, or its study is not there: this one goes on as a draft of its own.
    const mine = unsent.get(one.id);
    // Its study was run meanwhile: there is nothing left to keep.
    if (mine === undefined) return;
    const now = { ...mine, id: newId(), revision: 0, ...(status === 404 ? { own: null } : {}) };
    unsent.delete(one.id);
    unsent.set(now.id, now);
    if (current?.id === one.id) {
      current = now;
      if (location.hash === writeAddress({ kind: "draft", id: one.id }))
        history.replaceState(null, "", writeAddress({ kind: "draft", id: now.id }));
    }
    keepHere();
    return;
  }
  // Last in turn, so that one that cannot be kept holds up no other.
  if (unsent.delete(one.id)) unsent.set(one.id, one);
  say(keepHere() ? "here" : "nowhere");
}
