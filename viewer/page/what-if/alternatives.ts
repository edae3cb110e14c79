import type { RunRecord } from "../../../engine/index.ts";
import { changeText, isEmpty, readChange, type StudyChange } from "./study-change.ts";

/** Changes that a reader has named, to set beside others. */
export interface Alternative {
  readonly name: string;
  readonly change: StudyChange;
}

/** Most that are kept of one study: as many as still stand side by side in a table. */
export const MOST_ALTERNATIVES = 6;
const PLACE = "trialband-alternatives-";

/** A short text that differs from study to study (FNV-1a, 64 bits in two halves). */
function keyOf(study: unknown): string {
  const text = JSON.stringify(study);
  let [a, b] = [0x811c9dc5, 0xcbf29ce4];
  for (let i = 0; i < text.length; i += 1) {
    a = Math.imul(a ^ text.charCodeAt(i), 0x01000193);
    b = Math.imul(b ^ text.charCodeAt(i), 0x01000197);
  }
  return [a, b].map((half) => (half >>> 0).toString(16).padStart(8, "0")).join("");
}

/** The alternatives that this browser keeps of a record's study; those it cannot read are left out. */
export function keptAlternatives(record: RunRecord): readonly Alternative[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(PLACE + keyOf(record.study)) ?? "[]");
    if (!Array.isArray(kept)) return [];
    return (kept as unknown[]).slice(0, MOST_ALTERNATIVES).flatMap((entry) => {
      const { name, tries, pairs } = (entry ?? {}) as Readonly<Record<string, unknown>>;
      if (typeof name !== "string") return [];
      const text = (value: unknown): string | undefined => (typeof value === "string" ? value : undefined);
      const change = readChange(text(tries), text(pairs), record);
      return isEmpty(change) ? [] : [{ name, change }];
    });
  } catch {
    return [];
  }
}

/** @returns whether the browser keeps them */
export function keepAlternatives(record: RunRecord, alternatives: readonly Alternative[]): boolean {
  const place = PLACE + keyOf(record.study);
  try {
    if (alternatives.length === 0) localStorage.removeItem(place);
    else
      localStorage.setItem(
        place,
        JSON.stringify(alternatives.map(({ name, change }) => ({ name, ...changeText(change) }))),
      );
    return true;
  } catch {
    return false;
  }
}
