import * as z from "zod";

// What the report reads of the parts of a record that only some studies ask for.

const figure = z.number();
const pair = z.tuple([figure, figure]);
const index = z.looseObject({ value: figure, standardError: figure, interval: pair });

export const sensitivityFields = z.looseObject({
  trials: z.int(),
  confidence: figure,
  estimators: z.looseObject({
    contribution: z.string(),
    firstOrder: z.string(),
    total: z.string(),
    interval: z.string(),
  }),
  standardUncertainty: figure.nullable(),
  standardUncertaintyOneAtATime: figure.nullable(),
  factors: z.array(
    z.looseObject({
      name: z.string(),
      inputs: z.array(z.string()).min(1),
      linearShare: figure,
      alone: z.looseObject({ standardUncertainty: figure.nullable(), shift: figure.nullable() }),
      firstOrder: index.nullable(),
      total: index.nullable(),
    }),
  ),
  interaction: index.nullable(),
  reason: z.string().nullable(),
  conditional: z.record(
    z.string(),
    z.looseObject({
      bins: z.array(
        z.looseObject({ from: figure, at: figure, to: figure, mean: figure.nullable(), low: figure, high: figure }),
      ),
    }),
  ),
  sentence: z.string(),
});

const limits = z.looseObject({ lower: figure.nullable(), upper: figure.nullable() });

const assessment = z.looseObject({
  estimate: figure,
  standardUncertainty: figure.nullable(),
  expandedUncertainty: figure,
  guardBand: figure,
  guardBands: z.looseObject({ lower: figure, upper: figure }).optional(),
  acceptance: limits.nullable(),
  decision: z.enum(["accepted", "rejected"]),
  firm: z.boolean().optional(),
  probabilityOfConformity: figure,
  standardError: figure.nullable(),
  below: figure,
  above: figure,
  specificRisk: z.looseObject({ bearer: z.enum(["consumer", "producer"]), value: figure }),
  measurementCapability: figure.nullable(),
  posterior: z
    .looseObject({
      estimate: figure,
      standardUncertainty: figure,
      probabilityOfConformity: figure,
      specificRisk: figure,
    })
    .nullable(),
  globalRisk: z.looseObject({ consumer: figure, producer: figure }).nullable(),
});

export const conformityFields = z.looseObject({
  tolerance: z.looseObject({ lower: figure.nullable(), upper: figure.nullable(), basis: z.string().nullable() }),
  rule: z.looseObject({
    name: z.enum(["simple acceptance", "guarded acceptance", "guarded rejection"]),
    guardBandMultiplier: figure,
    source: z.string(),
  }),
  prior: z
    .looseObject({
      mean: figure,
      standardDeviation: figure,
      source: z.string().nullable(),
      probabilityOfConformity: figure,
    })
    .nullable(),
  linear: assessment,
  monteCarlo: assessment,
  agree: z.boolean(),
  sentence: z.string(),
});
