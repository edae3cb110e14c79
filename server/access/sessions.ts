import { createHash, randomBytes } from "node:crypto";

/** How long a session lasts, ms. */
export interface SessionTimes {
  /** Without a request. */
  readonly idle: number;
  /** Since the sign-in, whatever is asked. */
  readonly whole: number;
}

export const USUAL_TIMES: SessionTimes = { idle: 2 * 3_600_000, whole: 12 * 3_600_000 };

/** Who signed in, and by which secret: another password ends what the old one began. */
export interface SignedIn {
  readonly name: string;
  readonly secret: string;
}

/** The sessions of a server, in memory alone: a restart asks everyone to sign in again. */
export interface Sessions {
  /** @returns the id: 256 random bits that nobody chose */
  begin(who: SignedIn): string;
  /** Who has a session; `null` if it ended or there never was one. @param used whether a person's request asks, which puts off the idle end */
  find(id: string, used: boolean): SignedIn | null;
  end(id: string): void;
}

/** Beyond this the one unused for the longest time ends. */
const MOST = 10_000;

export function openSessions(times: SessionTimes = USUAL_TIMES, now: () => number = () => performance.now()): Sessions {
  /** By digest: what reads the memory of the server still cannot send an id. In the order of their last use. */
  const kept = new Map<string, SignedIn & { readonly began: number; readonly seen: number }>();
  const keyOf = (id: string): string => createHash("sha256").update(id).digest("base64");
  return {
    begin(who) {
      const id = randomBytes(32).toString("base64url");
      const at = now();
      for (const [key, { began, seen }] of kept)
        if (at - seen >= times.idle || at - began >= times.whole) kept.delete(key);
      if (kept.size >= MOST) kept.delete(kept.keys().next().value!);
      kept.set(keyOf(id), { ...who, began: at, seen: at });
      return id;
    },
    find(id, used) {
      const key = keyOf(id);
      const found = kept.get(key);
      if (found === undefined) return null;
      const at = now();
      if (at - found.seen >= times.idle || at - found.began >= times.whole) {
        kept.delete(key);
        return null;
      }
      if (used) {
        kept.delete(key);
        kept.set(key, { ...found, seen: at });
      }
      return { name: found.name, secret: found.secret };
    },
    end: (id) => void kept.delete(keyOf(id)),
  };
}
