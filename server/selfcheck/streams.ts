import { prepare, readStudy, type StudyDocument } from "../../engine/index.ts";
import { type GeneratorFamily, type Substream } from "../../engine/internal.ts";
import { loadModel } from "../shelves/model.ts";

/** Numbers of one block, as the engine cuts its trials (JCGM 101, 7.9.4: four blocks make a batch of 10⁴). */
export const BLOCK = 2500;

/** The generator that a study which names it is run with: taken from a prepared study, as a run takes it. */
export async function generatorOfRuns(id: NonNullable<StudyDocument["generator"]>): Promise<GeneratorFamily> {
  const parameters = { coefficients: { x: 1 } };
  const model = await loadModel({ kind: "registered", id: "additive", parameters });
  const study = readStudy({
    title: "One input",
    model: "additive",
    parameters,
    inputs: { x: { distribution: "rectangular", lower: 0, upper: 1 } },
    generator: id,
  });
  return prepare(model, study).source.generator;
}

/** Fills `out` with `count` numbers of a channel. */
export type Fill = (from: Substream, channel: number, out: Float64Array, count: number) => void;

export const uniforms: Fill = (from, channel, out, count) => from.uniforms(channel, out, count);
export const normals: Fill = (from, channel, out, count) => from.normals(channel, out, count);

export interface Place {
  readonly seed?: string;
  readonly input?: string;
  readonly channel?: number;
  readonly firstBlock?: number;
}

/** Whole blocks of numbers, one after the other. */
export function column(
  family: GeneratorFamily,
  fill: Fill,
  blocks: number,
  { seed = "selfcheck", input = "x", channel = 0, firstBlock = 0 }: Place = {},
): Float64Array {
  const all = new Float64Array(blocks * BLOCK);
  const open = family.open(seed, input);
  for (let b = 0; b < blocks; b++) fill(open(firstBlock + b), channel, all.subarray(b * BLOCK, (b + 1) * BLOCK), BLOCK);
  return all;
}
