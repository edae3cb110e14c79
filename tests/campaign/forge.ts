import { leavesOf, NO_FIELDS, NO_ITEMS } from "../../server/record/leaves.ts";
import { repeatStudy, type Repeat } from "../../server/verify/repeat.ts";
import { digestOf } from "../../server/canonical.ts";
import { recordText, sealOf, type SealedRecord } from "../../server/record/seal.ts";
import { openRecord } from "../../server/record/open.ts";
import { verifyRecord, type Verification } from "../../server/verify/verify.ts";
import { chanceFrom } from "./chance.ts";

type Json = Readonly<Record<string, unknown>>;
type Change = (document: Json) => Json;

/** What a forger changes: one value, or whether it is there at all. */
export interface Mutation {
  readonly place: string;
  readonly what: string;
  readonly change: Change;
}

const keysOf = (place: string): string[] =>
  place.split(".").map((key) => key.replaceAll("~1", ".").replaceAll("~0", "~"));

/** A copy with another value at one place; `undefined` takes the value away, from a list too. */
function withValue(document: unknown, keys: readonly string[], value: unknown): unknown {
  const [key, ...rest] = keys;
  if (key === undefined) return value;
  if (Array.isArray(document)) {
    const at = Number(key);
    if (rest.length === 0 && value === undefined) return document.filter((_, i) => i !== at);
    return document.map((item: unknown, i) => (i === at ? withValue(item, rest, value) : item));
  }
  const entries = Object.entries(document as Json);
  if (rest.length === 0 && value === undefined) return Object.fromEntries(entries.filter(([name]) => name !== key));
  return Object.fromEntries(entries.map(([name, item]) => [name, name === key ? withValue(item, rest, value) : item]));
}

const valueAt = (document: unknown, keys: readonly string[]): unknown =>
  keys.reduce((value, key) => (value as Json)[key], document);

/** Values that a forger might put in place of one: each is another value. */
function others(value: unknown): unknown[] {
  if (typeof value === "number") {
    const near = value === 0 ? 1e-9 : value * (1 + 1e-6);
    return [value === 0 ? 1 : value / 2, value === 0 ? -1 : -value, value === 0 ? 2 : value * 1000, near].filter(
      (other) => other !== value,
    );
  }
  if (typeof value === "string") return [`${value} `, `x${value}`, ""].filter((other) => other !== value);
  if (typeof value === "boolean") return [!value];
  return [0, true, "x"];
}

/** Mutations of every leaf of a record, and of every list and object whose parts could be taken away. */
export function mutationsOf(record: SealedRecord): Mutation[] {
  const at = (place: string, what: string, value: unknown): Mutation => ({
    place,
    what,
    change: (document) => withValue(document, keysOf(place), value) as Json,
  });
  const leaves = [...leavesOf(record)];
  const parts = new Set(
    leaves.flatMap(([place]) => keysOf(place).map((_, i) => place.split(".").slice(0, i).join("."))),
  );
  parts.delete("");
  return [
    ...leaves.flatMap(([place, leaf]) =>
      leaf === NO_ITEMS || leaf === NO_FIELDS
        ? [at(place, "filled", leaf === NO_ITEMS ? [1] : { a: 1 })]
        : [
            ...others(leaf).map((value) => at(place, `set to ${JSON.stringify(value)}`, value)),
            at(place, "removed", undefined),
          ],
    ),
    ...[...parts].flatMap((place) => [
      at(place, "emptied", Array.isArray(valueAt(record, keysOf(place))) ? [] : {}),
      at(place, "removed", undefined),
      at(place, "set to null", null),
    ]),
  ];
}

/**
 * Which mutations to try: all but those of long lists, such as a histogram's bins, of which some are chosen. A list is compared
 * by the same code from its first item to its last; all items of all lists would take ten hours a record.
 *
 * @param most mutations of the items of one list
 */
export function someOfLists(
  mutations: readonly Mutation[],
  most: number,
  seed: number,
): (mutation: Mutation) => boolean {
  const groups = new Map<string, Mutation[]>();
  for (const mutation of mutations) {
    const list = mutation.place.replaceAll(/\.\d+(?=\.|$)/g, ".#");
    const group = groups.get(list) ?? [];
    groups.set(list, group);
    group.push(mutation);
  }
  const chance = chanceFrom(seed);
  const chosen = new Set(
    [...groups.values()].flatMap((group) =>
      group.length <= most
        ? group
        : // The ends too: what is left out is most often there.
          [group[0]!, group.at(-1)!, ...Array.from({ length: most - 2 }, () => chance.pick(group))],
    ),
  );
  return (mutation) => chosen.has(mutation);
}

/** How a forger hides a change: what the record says of its maker, before its digests are made anew. */
export const DISGUISES: Readonly<Record<string, Change>> = {
  "digests made anew": (record) => record,
  "another version": (record) => ({ ...record, engine: { ...(record["engine"] as Json), version: "0.2.9" } }),
  "another build": (record) => ({
    ...record,
    provenance: { ...(record["provenance"] as Json), engineDigest: "0".repeat(64) },
  }),
  "format set back": (record) => ({ ...record, format: "trialband-record/1" }),
  "format set back, later parts taken away": (record) => {
    const { seal: _seal, provenance: _provenance, environment: _environment, ...rest } = record;
    const { joint: _joint, sweep: _sweep, ...bare } = rest;
    const strip = (part: unknown, names: readonly string[]): unknown =>
      typeof part !== "object" || part === null
        ? part
        : Object.fromEntries(Object.entries(part).filter(([name]) => !names.includes(name)));
    const each = (parts: unknown, names: readonly string[]): Json =>
      Object.fromEntries(Object.entries(parts ?? {}).map(([name, part]) => [name, strip(part, names)]));
    return {
      ...bare,
      format: "trialband-record/1",
      engine: { name: "trialband", version: "0.1.0" },
      inputs: each(bare["inputs"], ["evidence"]),
      measurands: each(bare["measurands"], ["secondOrder", "explanation", "conformity", "sensitivity"]),
    };
  },
};

/** The bytes of a forged record: every digest is that of its content. */
export function forged(record: SealedRecord, change: Change, disguise: Change): string {
  const copy = disguise(change(record as unknown as Json)) as unknown as SealedRecord;
  return recordText(
    "seal" in copy ? ({ ...copy, seal: safely(() => sealOf(copy)) ?? copy.seal } as SealedRecord) : copy,
  );
}

function safely<T>(make: () => T): T | null {
  try {
    return make();
  } catch {
    // A document so damaged has no digest; it keeps the old one.
    return null;
  }
}

/**
 * Places that no repetition can show to be wrong, since nothing else in a record follows from them. Whoever may write
 * the file may write them; verification prints them as the record's own word, or with the study's digest.
 */
export const FREE: readonly RegExp[] = [
  /** Differs from run to run. */
  /^environment\./,
  /^provenance\.commit$/,
  /** Words and settings of the study that its figures do not depend on: another study, with another digest. */
  /^study(\.|$)/,
];

/** A forged record that was not refused. */
export interface Finding {
  readonly record: string;
  readonly disguise: string;
  readonly place: string;
  readonly what: string;
  readonly outcome: Verification["outcome"];
}

/** The forgeries that were tried, and what became of them. */
export interface ForgeTally {
  readonly tried: number;
  /** Free places, whose change the output shows. */
  readonly shown: number;
  /** Taken away, and filled in again as it was: what the format that the record claims did not state yet. */
  readonly filledIn: number;
  /** Figures moved by less than their standard error, in a record that says that another version made it. */
  readonly withinErrors: number;
  readonly passed: readonly Finding[];
}

/** Repetitions kept by what they repeat, so that thousands of forgeries of one record cost one set of them. */
export function remembering(repeat: Repeat = repeatStudy): Repeat {
  const known = new Map<string, Promise<SealedRecord>>();
  return (study, reference, options) => {
    const key = digestOf({ study, stopAt: study.trials === "adaptive" ? (options.stopAt ?? null) : null });
    const found = known.get(key) ?? repeat(study, reference, options);
    known.set(key, found);
    return found;
  };
}

/**
 * Verifies forgeries of one record.
 *
 * @param pick chooses which of them to try
 */
export async function forge(
  name: string,
  record: SealedRecord,
  pick: (all: readonly Mutation[]) => (mutation: Mutation, index: number) => boolean,
  repeat: Repeat = remembering(),
  tell: (tried: number) => void = () => undefined,
): Promise<ForgeTally> {
  const original = await verifyRecord(recordText(record), name, { repeat });
  if (original.outcome !== "bits") throw new Error(`${name} itself is refused: ${original.reasons.join(" ")}`);
  const passed: Finding[] = [];
  let [tried, shown, filledIn, withinErrors] = [0, 0, 0, 0];
  const all = mutationsOf(record);
  const mutations = all.filter(pick(all));
  for (const [disguise, hide] of Object.entries(DISGUISES)) {
    const unchanged = forged(record, (same) => same, hide);
    for (const { place, what, change } of mutations) {
      const text = forged(record, change, hide);
      // The disguise took away what the mutation had changed.
      if (text === unchanged) continue;
      tried += 1;
      if (tried % 100 === 0) tell(tried);
      const result = await verifyRecord(text, name, { repeat });
      if (result.outcome === "refused") continue;
      if (isShown(place, result, original, text)) shown += 1;
      else if (isTheSame(place, text, record)) filledIn += 1;
      else if (isWithinErrors(place, result, record)) withinErrors += 1;
      else if (!isOwnClaim(place, result))
        passed.push({ record: name, disguise, place, what, outcome: result.outcome });
    }
  }
  return { tried, shown, filledIn, withinErrors, passed };
}

/** Whether a change of a free place can be read off the output. */
function isShown(place: string, result: Verification, original: Verification, text: string): boolean {
  if (!FREE.some((free) => free.test(place))) return false;
  if (place.startsWith("study")) return result.study !== original.study;
  const value = valueAt(JSON.parse(text) as Json, keysOf(place));
  return result.notes.some((note) => note.includes(value === null ? "not stated" : String(value)));
}

/** Whether what was taken away is there again, with the same value, once the record is opened: nothing was altered. */
function isTheSame(place: string, text: string, record: SealedRecord): boolean {
  const opened = openRecord(text, "forged").record as unknown as Json;
  return JSON.stringify(valueAt(opened, keysOf(place))) === JSON.stringify(valueAt(record, keysOf(place)));
}

/** A figure within its standard error, where the outcome says that another version was at work. */
function isWithinErrors(place: string, { outcome, agreement }: Verification, record: SealedRecord): boolean {
  if (outcome !== "agrees" || agreement === null) return false;
  const figure = agreement.scattered.find((found) => found.place === place);
  const before = valueAt(record, keysOf(place));
  return figure !== undefined && Math.abs(figure.filed - Number(before)) <= 2 * agreement.limit * figure.standardError;
}

/** What the record says of its maker, which the output repeats as its own word, with an exit code of its own. */
const isOwnClaim = (place: string, { outcome, notes }: Verification): boolean =>
  outcome === "agrees" &&
  /^(engine(\.version)?|provenance\.(engineDigest|modelDigest)|format)$/.test(place) &&
  notes.some((note) => note.startsWith("Another version was at work"));
