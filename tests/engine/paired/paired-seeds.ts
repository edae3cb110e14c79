// Runs of a model of known figures by many seeds: how its paired figures and their standard errors fare.
import { prepare, readStudy } from "../../../engine/index.ts";
import { Accumulation, openTrials } from "../../../engine/internal.ts";
import { linearised, type KnownModel } from "./models.ts";

export const FIGURES = ["estimate", "standardUncertainty", "low", "high"] as const;
export type FigureName = (typeof FIGURES)[number];

/** Of one figure: the part of runs that hold the truth within 1.96 standard errors, and the standard errors. */
export interface Held {
  readonly covered: number;
  /** Plain standard error over the paired one, root mean square. */
  readonly gain: number;
}

const normal = { distribution: "normal", estimate: 0, standardUncertainty: 1 };

export function heldBySeeds(known: KnownModel, seeds: number, trials: number): Readonly<Record<FigureName, Held>> {
  const truth = { estimate: known.mean, standardUncertainty: known.deviation, low: known.ends[0], high: known.ends[1] };
  const sums = Object.fromEntries(FIGURES.map((figure) => [figure, { held: 0, plain: 0, paired: 0 }])) as Record<
    FigureName,
    { held: number; plain: number; paired: number }
  >;
  for (let seed = 0; seed < seeds; seed++) {
    const study = { title: "t", model: "known", inputs: { a: normal, b: normal }, trials, seed: String(seed) };
    const prepared = prepare(known.model, readStudy(study));
    const draw = openTrials(prepared.source);
    const gathered = new Accumulation(prepared);
    for (let count = gathered.next; count > 0; count = gathered.next) gathered.add(draw(gathered.trials, count));
    const found = gathered.paired("y", linearised(known));
    if (found === null) throw new Error(`seed ${seed}: got no paired figures; expected some`);
    const { standardErrors: plain } = gathered.result("y");
    const errors = {
      estimate: known.deviation / Math.sqrt(trials),
      standardUncertainty: plain.standardUncertainty ?? Number.NaN,
      low: plain.symmetric[0],
      high: plain.symmetric[1],
    };
    for (const figure of FIGURES) {
      const { value, standardError } = found[figure]!;
      if (Math.abs(value - truth[figure]) <= 1.96 * standardError) sums[figure].held += 1;
      sums[figure].plain += errors[figure] ** 2;
      sums[figure].paired += standardError ** 2;
    }
  }
  return Object.fromEntries(
    FIGURES.map((figure) => {
      const { held, plain, paired } = sums[figure];
      return [figure, { covered: held / seeds, gain: Math.sqrt(plain / paired) }];
    }),
  ) as Record<FigureName, Held>;
}
