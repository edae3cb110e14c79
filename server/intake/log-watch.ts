import {
  GrowingLog,
  GrowingOutline,
  StabilityFollower,
  type Followed,
  type FollowOptions,
  type GrowingLogOptions,
  type Outline,
} from "../../models/index.ts";
import { nameOf } from "./source.ts";
import { GrowingFile } from "./growing-file.ts";

/** How each thermometer of a log that grows stands. */
export interface WatchedState {
  readonly name: string;
  /** Whether the file is there. */
  readonly there: boolean;
  readonly thermometers: readonly { readonly thermometer: string; readonly state: Followed }[];
  readonly notes: readonly string[];
  readonly leftOut: { readonly rows: number; readonly latest: string | null };
}

/** A log followed as its file grows. */
export class LogWatch {
  readonly #path: string;
  readonly #options: GrowingLogOptions;
  readonly #follow: FollowOptions;
  readonly #file: GrowingFile;
  readonly #notes: string[] = [];
  #log: GrowingLog;
  #followers = new Map<string, StabilityFollower>();
  #outlines = new Map<string, GrowingOutline>();
  /** `null` until it was looked for. */
  #there: boolean | null = null;

  constructor(path: string, options: GrowingLogOptions, follow: FollowOptions) {
    this.#path = path;
    this.#options = options;
    this.#follow = follow;
    this.#file = new GrowingFile(path);
    this.#log = new GrowingLog(nameOf(path), options);
  }

  /**
   * Reads what was added, or a piece of it.
   *
   * @param onReading told of each reading, in order
   * @returns whether anything changed, whether the file was cut or replaced, and whether there may be more to read at once
   * @throws {InputError} a log that cannot be followed without something being stated
   */
  look(onReading?: (thermometer: string, time: number, value: number) => void): {
    readonly changed: boolean;
    readonly restarted: boolean;
    readonly more: boolean;
  } {
    const { text, restarted, there } = this.#file.look();
    let changed = there !== this.#there || restarted;
    this.#there = there;
    if (restarted) {
      this.#log = new GrowingLog(nameOf(this.#path), this.#options);
      this.#followers = new Map();
      this.#outlines = new Map();
      this.#notes.push("the file was cut or replaced: followed from its new beginning");
    }
    for (const { thermometer, time, value } of this.#log.push(text)) {
      changed = true;
      let follower = this.#followers.get(thermometer);
      if (follower === undefined) this.#followers.set(thermometer, (follower = new StabilityFollower(this.#follow)));
      follower.take(time, value);
      this.#outlineOf(thermometer).take(time, value);
      onReading?.(thermometer, time, value);
    }
    return { changed, restarted, more: text !== "" };
  }

  #outlineOf(thermometer: string): GrowingOutline {
    let outline = this.#outlines.get(thermometer);
    if (outline === undefined) this.#outlines.set(thermometer, (outline = new GrowingOutline()));
    return outline;
  }

  /** The log in little, for a picture. */
  outlines(): readonly Outline[] {
    return [...this.#outlines].map(([thermometer, outline]) => outline.outline(thermometer));
  }

  state(): WatchedState {
    return {
      name: nameOf(this.#path),
      there: this.#there === true,
      thermometers: [...this.#followers].map(([thermometer, follower]) => ({ thermometer, state: follower.state()! })),
      notes: [...new Set([...this.#file.notes, ...this.#notes, ...this.#log.notes])],
      leftOut: this.#log.leftOut,
    };
  }
}
