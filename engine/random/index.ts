import { blockGenerator } from "./block-generator.ts";
import { mersenneTwister } from "./mersenne-twister.ts";
import type { GeneratorFamily } from "./stream.ts";

/** Every generator that a study can name: one line per generator, the usual one first. */
const families = [blockGenerator, mersenneTwister] as const;

export const generatorIds = ["sfc32x4-philox", "mt19937"] as const;

/** The generator of that id. */
export const generatorOf = (id: (typeof generatorIds)[number]): GeneratorFamily =>
  families.find((family) => family.id === id)!;
