import type { StatedMapping } from "../../api/budget-tables.ts";
import type { Describing } from "./describing.ts";

interface Kept {
  readonly file: File;
  readonly stated: StatedMapping;
  readonly describing: Describing;
}

const PLACE = "trialband-import";
/** What a browser has room for beside everything else. */
const MOST_BYTES = 1_000_000;

/** Keeps the open import, so that the page can be loaded anew in the middle of it. Larger files are chosen again. */
export async function keepSession({ file, stated, describing }: Kept): Promise<void> {
  try {
    if (file.size > MOST_BYTES) return sessionStorage.removeItem(PLACE);
    const bytes = new Uint8Array(await file.arrayBuffer());
    let text = "";
    for (const byte of bytes) text += String.fromCodePoint(byte);
    sessionStorage.setItem(PLACE, JSON.stringify({ name: file.name, bytes: btoa(text), stated, describing }));
  } catch {
    // Without room for it the file has to be chosen again after the page is loaded anew.
  }
}

export async function keptSession(): Promise<Kept | null> {
  try {
    const kept = JSON.parse(sessionStorage.getItem(PLACE) ?? "null") as
      | (Omit<Kept, "file"> & { readonly name: string; readonly bytes: string })
      | null;
    if (kept === null) return null;
    const bytes = Uint8Array.from(atob(kept.bytes), (letter) => letter.codePointAt(0)!);
    return { file: new File([bytes], kept.name), stated: kept.stated, describing: kept.describing };
  } catch {
    return null;
  }
}
