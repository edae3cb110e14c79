import { randomUUID } from "node:crypto";
import { basename } from "node:path";
import { InputError } from "../../engine/index.ts";
import { SHORTEST_WINDOW, type GrowingLogOptions } from "../../models/index.ts";
import type { WatchedLogList, WatchEvent, WatchQuery } from "../../viewer/api/watched-logs.ts";
import { Fault } from "../errors.ts";
import { LogWatch } from "../intake/log-watch.ts";

/** Told of each event, with its id. */
export type Told = (id: string, event: WatchEvent) => void;

/** The logs that the server was started to follow. They are only read, and no other file is. */
export interface WatchedLogs {
  list(): WatchedLogList;
  /**
   * Tells how a log stands, and again whenever that changes.
   *
   * @param seen id of the last event that the reader has: if that is the latest, the next one is told
   * @returns stops telling
   * @throws {Fault} `no-such-file`: a log that the server does not follow; `busy`: too much is followed at once
   */
  follow(id: string, asked: WatchQuery, seen: string | null, told: Told): () => void;
  close(): void;
}

/** How often a file is looked at while anyone follows it, ms. */
const EVERY = 1000;
/** Combinations of a log and what is asked of it that are kept: each has one window in memory. */
const KEPT = 16;

export function watchedLogs(paths: readonly string[], every = EVERY): WatchedLogs {
  const kept = new Map<string, Follower>();
  /** One that nobody follows gives way, the one made first. @throws {Fault} `busy` */
  const makeRoom = (): void => {
    if (kept.size < KEPT) return;
    const idle = [...kept].find(([, follower]) => follower.idle);
    if (idle === undefined)
      throw new Fault("busy", `Logs are followed in ${KEPT} ways at once already. Try again once a reader has left.`);
    idle[1].stop();
    kept.delete(idle[0]);
  };
  return {
    list: () => paths.map((path, i) => ({ id: String(i + 1), name: basename(path) })),
    follow(id, asked, seen, told) {
      const path = /^[1-9]\d{0,3}$/.test(id) ? paths[Number(id) - 1] : undefined;
      if (path === undefined)
        throw new Fault(
          "no-such-file",
          `The server does not follow a log ${JSON.stringify(id)}: it was started with ${paths.length === 0 ? "none" : paths.length}.`,
        );
      const key = JSON.stringify([path, asked]);
      let follower = kept.get(key);
      if (follower === undefined) {
        makeRoom();
        kept.set(key, (follower = new Follower(path, asked, every)));
      }
      return follower.join(seen, told);
    },
    close: () => kept.forEach((follower) => follower.stop()),
  };
}

/** One log with what is asked of it, for everyone who asks the same: looked at only while anyone follows. */
class Follower {
  readonly #name: string;
  readonly #every: number;
  readonly #window: number;
  readonly #watch: LogWatch;
  readonly #readers = new Set<Told>();
  /** Events of another start of the server, or after it was forgotten, are not taken for these. */
  readonly #epoch = randomUUID().slice(0, 8);
  #count = 0;
  #latest: WatchEvent | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #looking = false;
  #ended = false;

  constructor(path: string, { criterion, time, window, dates, unit, r0 }: WatchQuery, every: number) {
    this.#name = basename(path);
    this.#every = every;
    this.#window = window === undefined ? Math.max(SHORTEST_WINDOW, 60 * (time ?? 0)) : 60 * window;
    const options: GrowingLogOptions = {
      dates,
      unit,
      resistance: r0 === undefined ? undefined : { nominalResistance: r0 },
    };
    const limit = criterion === undefined ? null : criterion / 1000;
    this.#watch = new LogWatch(path, options, { window: this.#window, criterion: limit });
  }

  /** Whether nobody follows. */
  get idle(): boolean {
    return this.#readers.size === 0;
  }

  get #id(): string {
    return `${this.#epoch}-${this.#count}`;
  }

  join(seen: string | null, told: Told): () => void {
    this.#readers.add(told);
    if (this.#latest !== null && seen !== this.#id) told(this.#id, this.#latest);
    void this.#look();
    return () => {
      this.#readers.delete(told);
      // Taken up again, it goes on from where it was.
      if (this.#readers.size === 0) clearTimeout(this.#timer);
    };
  }

  stop(): void {
    this.#ended = true;
    clearTimeout(this.#timer);
  }

  /** Reads what was added, a long log in pieces, and looks again after a while. */
  async #look(): Promise<void> {
    if (this.#looking || this.#ended) return;
    this.#looking = true;
    clearTimeout(this.#timer);
    try {
      let changed = this.#latest === null || this.#latest.type === "failed";
      for (;;) {
        const looked = this.#watch.look();
        changed ||= looked.changed;
        if (!looked.more || this.#ended) break;
        await new Promise((resolve) => setImmediate(resolve));
      }
      if (changed)
        this.#tell({
          type: "state",
          window: this.#window,
          ...this.#watch.state(),
          outlines: this.#watch.outlines(),
        });
    } catch (error) {
      this.#tell(this.#failed(error));
    } finally {
      this.#looking = false;
    }
    if (this.#readers.size > 0 && !this.#ended) {
      this.#timer = setTimeout(() => void this.#look(), this.#every);
      this.#timer.unref();
    }
  }

  /** Why a log cannot be followed: what is to be stated, or that it cannot be read, without its folder. */
  #failed(error: unknown): WatchEvent {
    const name = this.#name;
    if (error instanceof InputError)
      return { type: "failed", name, message: `${name} cannot be followed as it is.`, problems: error.problems };
    if (error instanceof Fault)
      return { type: "failed", name, message: `${name} cannot be read at the moment.`, problems: [] };
    throw error;
  }

  #tell(event: WatchEvent): void {
    if (event.type === "failed" && JSON.stringify(event) === JSON.stringify(this.#latest)) return;
    this.#latest = event;
    this.#count += 1;
    for (const told of this.#readers) told(this.#id, event);
  }
}
