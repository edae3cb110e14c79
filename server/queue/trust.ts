import { createHash } from "node:crypto";
import { bundleModule, placeModule } from "../shelves/bundle.ts";
import type { ModelPlace } from "../shelves/model.ts";
import type { Board } from "./board.ts";
import { build, javascriptEngine, laneOf, type Build, type Recipe } from "./messages.ts";
import { namedDigest } from "./named-digest.ts";

/** Whose code a worker runs. */
export interface Trust {
  /** Models of one's own that lie on this machine, by the digest of what they are: they were named when the worker started. */
  readonly named: ReadonlyMap<string, string>;
  /** Whether it runs the model of anyone who can write into the queue. */
  readonly all: boolean;
}

/** @param files models that the worker was started with @throws {Fault} a file that cannot be read or compiled */
export async function trustIn(files: readonly string[], all: boolean): Promise<Trust> {
  const bundles = await Promise.all(files.map((file) => bundleModule(file)));
  return { named: new Map(bundles.map(({ source, url }) => [namedDigest(source), url])), all };
}

/** Why a worker does not take a draw, in words; `null` if it does. */
export function refusalOf({ build: wanted, model }: Recipe, { named, all }: Trust): string | null {
  for (const [what, key] of DIFFERENCES)
    if (wanted[key] !== build[key])
      return `the run needs ${what} ${short(wanted[key])}, and this worker has ${short(build[key])}; install the same Trialband on both machines.`;
  if (model.kind === "registered") return null;
  if (!all && !named.has(model.named))
    return "the run brings a model of one's own, which is code. Start this worker with --trust-models to run the model of anyone who can write into the queue, or with --model FILE if it has the very same file.";
  if (model.engine !== javascriptEngine)
    return `the run brings a model of one's own, whose last bits may depend on the JavaScript engine: it needs ${model.engine}, and this worker has ${javascriptEngine}.`;
  return null;
}

const DIFFERENCES: readonly (readonly [what: string, key: keyof Build])[] = [
  ["version", "version"],
  ["draw format", "format"],
  ["the engine with the digest", "engine"],
  ["the models with the digest", "models"],
];

const short = (value: string | number): string => String(value).slice(0, 16);

/** The queue of draws that need nothing but this installation. */
export const plainLane = laneOf({ build, model: { kind: "registered", id: "", parameters: {} } });

/**
 * Where the model of a draw that is taken lies on this machine.
 *
 * @throws {Error} a bundle that the queue does not have, or that is another than its digest says
 */
export async function placeHere({ model }: Recipe, { named }: Trust, board: Board): Promise<ModelPlace> {
  const { parameters } = model;
  if (model.kind === "registered") return { kind: "registered", id: model.id, parameters };
  const here = named.get(model.named);
  if (here !== undefined) return { kind: "module", url: here, parameters };
  const source = await board.module(model.digest);
  if (source === null) throw new Error("the queue has lost the run's model");
  if (createHash("sha256").update(source).digest("hex") !== model.digest)
    throw new Error("the run's model is another than its digest says");
  return { kind: "module", url: (await placeModule(source)).url, parameters };
}
