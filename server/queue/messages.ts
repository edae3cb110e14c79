import { VERSION, type Condensed, type Study } from "../../engine/internal.ts";
import { digestOf } from "../canonical.ts";
import type { FaultReport } from "../errors.ts";
import { buildFacts } from "../record/build-facts.ts";

/** Version of what is sent through a queue: raised when a job, an answer or what a recipe means changes. */
const DRAW_FORMAT = 3;

/** Everything that two machines must have in common to draw the same trials and to understand each other. */
export interface Build {
  readonly version: string;
  readonly engine: string;
  readonly models: string;
  readonly format: number;
}

export const build: Build = {
  version: VERSION,
  engine: buildFacts.engineDigest,
  models: buildFacts.modelsDigest,
  format: DRAW_FORMAT,
};

/** A model as it travels: by its id, or a model of one's own by the digest of its bundle. */
export type SentModel =
  | { readonly kind: "registered"; readonly id: string; readonly parameters: Readonly<Record<string, unknown>> }
  | {
      readonly kind: "own";
      /** SHA-256 of the bundle, which the queue has under it. */
      readonly digest: string;
      /** Digest of the bundle without the compiler's remarks on where files lay: the same on every machine. */
      readonly named: string;
      /** A model of one's own may call functions whose last bits are the JavaScript engine's. */
      readonly engine: string;
      readonly parameters: Readonly<Record<string, unknown>>;
    };

export const javascriptEngine = `V8 ${process.versions.v8} ${process.arch}`;

/** What a draw is: a study's trials, without the points of its sweep. */
export interface Recipe {
  readonly build: Build;
  readonly model: SentModel;
  readonly study: Study;
  /** Trials there will be at most. */
  readonly limit: number;
}

/** @returns `null` for text that is no recipe: others may write into the queue too */
export function readRecipe(text: string): Recipe | null {
  try {
    const { build: of, model, study, limit } = JSON.parse(text) as Recipe;
    const whole = [of, model, study].every((part) => typeof part === "object" && part !== null);
    return whole && Number.isSafeInteger(limit) ? { build: of, model, study, limit } : null;
  } catch {
    return null;
  }
}

/** A draw's queue is that of all that the same workers can draw: others never see its jobs. */
export const laneOf = ({ build: of, model }: Pick<Recipe, "build" | "model">): string =>
  `trials-${digestOf(model.kind === "registered" ? of : { ...of, own: model.named, engine: model.engine }).slice(0, 16)}`;

/** A job: batches of one draw, one after the other. What it is called follows from it, so that it is never there twice. */
export interface Job {
  readonly draw: string;
  readonly first: number;
  readonly counts: readonly number[];
}

/** Names a job, and its answer, among those of its draw. */
export const nameOf = ({ first, counts }: Pick<Job, "first" | "counts">): string => `${first}-${counts.length}`;

/** What a worker answers. */
export type Answer =
  | (Condensed & {
      readonly ok: true;
      /** Seconds that drawing took. */
      readonly seconds: number;
    })
  | { readonly ok: false; readonly report: FaultReport };

/** What a worker says of itself, every second. */
export interface WorkerNote {
  /** Machine and process. */
  readonly name: string;
  readonly build: Build;
  readonly threads: number;
  /** Queues that it takes jobs of. */
  readonly lanes: readonly string[];
  /** Jobs that it is at. */
  readonly active: number;
  /** Trials that it has drawn, and those a second lately. */
  readonly trials: number;
  readonly rate: number;
  readonly since: string;
}

/** What is published to all: a draw has begun, or has ended, and is not wanted any more. */
export const NEWS = "trialband:news";
export type News = { readonly begun: string } | { readonly ended: string };

/** @returns `null` for what is no news: others may write into the queue too */
export function readNews(text: string): News | null {
  try {
    const found = JSON.parse(text) as News;
    return typeof found === "object" ? found : null;
  } catch {
    return null;
  }
}
