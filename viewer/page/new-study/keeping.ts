import { BLANK, keptAsDraft, type Draft } from "./draft.ts";

const PLACE = "trialband-draft";
const PUT_ASIDE = "trialband-draft-put-aside";

function read(place: string): Draft | null {
  try {
    return keptAsDraft(JSON.parse(localStorage.getItem(place) ?? "null"));
  } catch {
    return null;
  }
}

/** @returns whether the browser keeps it */
function write(place: string, draft: Draft): boolean {
  try {
    localStorage.setItem(place, JSON.stringify(draft));
    return true;
  } catch {
    return false;
  }
}

/** The study that was being written here before, or `null`. */
export const keptDraft = (): Draft | null => read(PLACE);

/** @returns whether the browser keeps it: some keep nothing, or have no room */
export const keepDraft = (draft: Draft): boolean => write(PLACE, draft);

/** Begins another draft; the one before it is put aside unless it was empty. */
export function beginDraft(draft: Draft): void {
  const before = keptDraft();
  if (
    before !== null &&
    JSON.stringify(before) !== JSON.stringify(BLANK) &&
    JSON.stringify(before) !== JSON.stringify(draft)
  )
    write(PUT_ASIDE, before);
  keepDraft(draft);
}

/** The draft that gave way to the present one, or `null`. */
export const draftPutAside = (): Draft | null => read(PUT_ASIDE);

/** Forgets the draft that was put aside. */
export function forgetPutAside(): void {
  try {
    localStorage.removeItem(PUT_ASIDE);
  } catch {
    // Then there was none.
  }
}
