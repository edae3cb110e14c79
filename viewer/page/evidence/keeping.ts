import type { EvidenceKind, KeptFile, OwnEvidence } from "../../api/evidence.ts";
import { changeEvidence, createEvidence, RequestError } from "../api.ts";

/** How a draft is kept. */
export type Keeping = "kept" | "keeping" | "not kept";

/** What is kept of a draft. */
export interface KeptContent {
  readonly document: Readonly<Record<string, unknown>>;
  readonly files: readonly KeptFile[];
}

/** Time without a change after which a draft is sent, and after which a try that failed is repeated, ms. */
const PAUSE = 500;
const AGAIN = 3000;
const placeOf = (kind: EvidenceKind): string =>
  kind === "survey" ? "trialband-survey-set-up" : `trialband-evidence-${kind}`;

/**
 * Keeps a draft on the server, one change after the other, and in this browser until the server has it: nothing that was
 * typed is lost if the server is stopped meanwhile.
 *
 * @param kind what it is a draft of
 * @param content the draft as it is now
 * @param told how it is kept, and with what it was kept first
 */
export function createKeeper(
  kind: EvidenceKind,
  content: () => KeptContent,
  told: (keeping: Keeping, own: OwnEvidence | null, error: unknown) => void,
): {
  readonly begin: (own: OwnEvidence | null) => void;
  /** Something changed. */
  readonly changed: () => void;
  /** Sends it at once and makes it a version. @throws {RequestError} */
  readonly save: () => Promise<OwnEvidence>;
  readonly own: () => OwnEvidence | null;
} {
  let own: OwnEvidence | null = null;
  let sending: Promise<void> = Promise.resolve();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let dirty = false;

  const remember = (): void => {
    try {
      if (dirty) localStorage.setItem(placeOf(kind), JSON.stringify({ id: own?.id ?? null, ...content() }));
      else localStorage.removeItem(placeOf(kind));
    } catch {
      // A browser that keeps nothing: the server has what was sent.
    }
  };
  const send = async (save: boolean): Promise<OwnEvidence> => {
    const { document, files } = content();
    const named = files.map(({ name, sha256 }) => ({ name, sha256 }));
    own ??= await createEvidence({ kind, document, files: named });
    dirty = false;
    try {
      own = await changeEvidence(own.id, { document, files: named, seen: own.draft, save });
    } catch (error) {
      dirty = true;
      // A version that cannot be evaluated was kept as a draft all the same.
      if (save && error instanceof RequestError && error.status === 422) {
        own = { ...own, draft: own.draft + 1 };
        dirty = false;
      }
      throw error;
    }
    return own;
  };
  const keep = (): void => {
    sending = sending.then(async () => {
      if (!dirty) return;
      told("keeping", own, null);
      try {
        await send(false);
        remember();
        told("kept", own, null);
      } catch (error) {
        told("not kept", own, error);
        if (error instanceof RequestError && (error.status === 0 || error.status >= 500))
          timer = setTimeout(keep, AGAIN);
        else if (!(error instanceof RequestError)) throw error;
      }
    });
  };
  return {
    begin: (begun) => {
      clearTimeout(timer);
      own = begun;
      dirty = false;
    },
    changed: () => {
      dirty = true;
      remember();
      clearTimeout(timer);
      timer = setTimeout(keep, PAUSE);
    },
    save: async () => {
      clearTimeout(timer);
      await sending;
      const saved = await send(true);
      remember();
      return saved;
    },
    own: () => own,
  };
}

/** What this browser still has of a draft that the server did not get; `null` if there is nothing. */
export function unsent(kind: EvidenceKind, id: string | null): KeptContent | null {
  try {
    const found = JSON.parse(localStorage.getItem(placeOf(kind)) ?? "null") as
      | (KeptContent & { readonly id: string | null })
      | null;
    return found !== null && found.id === id ? found : null;
  } catch {
    return null;
  }
}
