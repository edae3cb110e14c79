import * as z from "zod";
import { evidenceSchema, InputError, schemaProblems, studySchema } from "../../engine/index.ts";

/** The record's format that this version writes; `migrate.ts` knows the older ones. */
export const FORMAT = "trialband-record/2";

const number = z.number();
const pair = z.tuple([number, number]);
const points = z.array(pair);
const matrix = z.array(z.array(number));
const digest = z.string().regex(/^[0-9a-f]{64}$/);
const sourceDigest = z.union([digest, z.literal("unbuilt")]);
const quantity = { symbol: z.string(), meaning: z.string(), unit: z.string(), difference: z.boolean().optional() };
const budgetLine = {
  estimate: number,
  standardUncertainty: number,
  degreesOfFreedom: number.nullable(),
  evaluation: z.enum(["A", "B"]),
};
const figures = z.strictObject({
  estimate: number.nullable(),
  standardUncertainty: number.nullable(),
  low: number.nullable(),
  high: number.nullable(),
});

const input = z.strictObject({
  ...quantity,
  distribution: z.string(),
  source: z.string().nullable(),
  evidence: evidenceSchema.nullable(),
  ...budgetLine,
  mean: number.nullable(),
  standardDeviation: number.nullable(),
  curve: points,
});

const linear = z.strictObject({
  estimate: number,
  standardUncertainty: number,
  coverageFactor: number,
  effectiveDegreesOfFreedom: number.nullable(),
  expandedUncertainty: number,
  interval: pair,
  contributions: z.array(
    z.strictObject({
      input: z.string(),
      ...budgetLine,
      sensitivityCoefficient: number,
      contribution: number,
      share: number,
    }),
  ),
  correlatedTerms: z.array(
    z.strictObject({ between: z.tuple([z.string(), z.string()]), coefficient: number, term: number, share: number }),
  ),
  doubtful: z.array(z.string()).optional(),
  curve: points,
});

const monteCarlo = z.strictObject({
  estimate: number.nullable(),
  standardUncertainty: number.nullable(),
  trials: z.int().positive(),
  probability: number,
  intervals: z.strictObject({ symmetric: pair, shortest: pair }),
  skewness: number.nullable(),
  excessKurtosis: number.nullable(),
  least: number,
  greatest: number,
  standardErrors: z.strictObject({
    estimate: number.nullable(),
    standardUncertainty: number.nullable(),
    symmetric: pair,
    shortest: pair.nullable(),
  }),
  histogram: z.strictObject({ low: number, width: number, counts: z.array(z.int()), below: z.int(), above: z.int() }),
  resolution: number.optional(),
  distributionFunction: points,
  settling: z.strictObject({
    points: z.array(z.strictObject({ trials: z.int(), averages: figures, doubled: figures })),
    limit: number,
    settled: z.boolean(),
    doubled: figures,
  }),
});

const atDigits = {
  significantDigits: z.union([z.literal(1), z.literal(2)]),
  numericalTolerance: number,
  validated: z.boolean(),
};

const causePart = z.strictObject({ shapley: pair, alone: pair, share: number, inputs: z.array(z.string()) });

const measurand = z.strictObject({
  ...quantity,
  linear,
  monteCarlo,
  validation: z.strictObject({
    ...atDigits,
    dLow: number,
    dHigh: number,
    settled: z.boolean(),
    firm: z.boolean(),
    atDigits: z.array(z.strictObject(atDigits)),
    coverageFactorNeeded: number.nullable(),
    sentence: z.string(),
  }),
  secondOrder: z
    .strictObject({
      bias: number,
      standardUncertainty: number,
      terms: z.array(z.strictObject({ between: z.tuple([z.string(), z.string()]), term: number })),
      interval: pair,
      dLow: number,
      dHigh: number,
      validated: z.boolean(),
    })
    .nullable(),
  explanation: z
    .strictObject({
      trials: z.int(),
      difference: pair,
      parts: z.strictObject({ curvature: causePart, shape: causePart, degreesOfFreedom: causePart }),
      interplay: pair,
      remainder: pair,
      sentence: z.string(),
      recommendation: z.strictObject({
        action: z.enum([
          "keep",
          "keep-with-factor",
          "add-second-order",
          "report-monte-carlo",
          "gather-readings",
          "draw-more",
        ]),
        factor: number.nullable(),
        inputs: z.array(z.string()),
        sentence: z.string(),
      }),
    })
    .nullable(),
  // Their figures are held to account by the digests and the repetition; only their presence is checked here.
  conformity: z.looseObject({ sentence: z.string() }).nullable(),
  sensitivity: z.looseObject({ sentence: z.string() }).nullable(),
});

const joint = z.strictObject({
  measurands: z.array(z.string()),
  linear: z.strictObject({ covariance: matrix, correlation: matrix }),
  monteCarlo: z.strictObject({ covariance: matrix, correlation: matrix, greatestEigenvalue: number }).nullable(),
  probability: number,
  ellipsoid: z.strictObject({ factor: number, normalFactor: number }).nullable(),
  rectangle: z.strictObject({ factor: number, normalFactor: number }).nullable(),
  pairs: z.array(
    z.strictObject({
      between: z.tuple([z.string(), z.string()]),
      ellipseFactor: number.nullable(),
      grid: z.strictObject({
        low: pair,
        width: pair,
        cells: z.int(),
        counts: z.array(number),
        outside: number,
        least: number,
        area: number,
        held: number,
      }),
      scatter: points,
    }),
  ),
});

const calibrationCurve = z.strictObject({
  argument: z.strictObject(quantity),
  value: z.strictObject(quantity),
  probability: number,
  trials: z.int().positive(),
  points: z
    .array(
      z.strictObject({
        at: number,
        linear: z.strictObject({
          estimate: number,
          standardUncertainty: number,
          coverageFactor: number,
          interval: pair,
        }),
        monteCarlo: z.strictObject({
          estimate: number.nullable(),
          standardUncertainty: number.nullable(),
          interval: pair,
        }),
      }),
    )
    .min(2),
  observed: z.array(z.strictObject({ at: number, value: number, fitted: number })),
  fit: z
    .strictObject({
      residuals: z.array(number),
      degreesOfFreedom: z.int(),
      residualDeviation: number.nullable(),
      largestInArgument: number,
    })
    .optional(),
});

/** A filed record. The one definition that its published JSON Schema and its checks come from. */
export const recordSchema = z.strictObject({
  format: z.literal(FORMAT),
  engine: z.strictObject({ name: z.literal("trialband"), version: z.string() }),
  study: studySchema,
  model: z.strictObject({
    id: z.string(),
    title: z.string(),
    equation: z.string().nullable(),
    source: z.string().nullable(),
    fixedBits: z.boolean(),
  }),
  coverage: z.strictObject({
    custom: z.enum(["probability", "factor"]),
    probability: number,
    interval: z.enum(["symmetric", "shortest"]),
  }),
  generator: z.strictObject({ id: z.string(), title: z.string(), seed: z.string() }),
  trials: z.strictObject({
    count: z.int().positive(),
    batch: z.int().positive(),
    stop: z.enum(["fixed", "settled", "limit"]),
    leftOut: z.int().nonnegative().optional(),
  }),
  inputs: z.record(z.string(), input),
  leftOut: z
    .array(
      z.strictObject({
        name: z.string(),
        symbol: z.string(),
        meaning: z.string(),
        unit: z.string(),
        because: z.string().nullable(),
      }),
    )
    .optional(),
  measurands: z.record(z.string(), measurand),
  joint: joint.nullable(),
  // Records filed before a model could declare a curve lack it.
  calibrationCurve: calibrationCurve.nullable().optional(),
  sweep: z
    .strictObject({
      quantity: z.string(),
      unit: z.string(),
      points: z.array(
        z.strictObject({
          at: number,
          trials: z.int(),
          measurands: z.record(
            z.string(),
            z.strictObject({
              linear: z.strictObject({
                estimate: number,
                standardUncertainty: number,
                coverageFactor: number,
                expandedUncertainty: number,
                interval: pair,
              }),
              monteCarlo: z.strictObject({
                estimate: number.nullable(),
                standardUncertainty: number.nullable(),
                interval: pair,
              }),
              validated: z.boolean(),
              coverageFactorNeeded: number.nullable(),
            }),
          ),
        }),
      ),
    })
    .nullable(),
  remarks: z.array(z.string()),
  cautions: z.array(z.string()),
  environment: z.strictObject({ startedAt: z.string(), seconds: number, workers: z.int(), runtime: z.string() }),
  provenance: z.strictObject({
    commit: z.string().nullable(),
    engineDigest: sourceDigest,
    modelDigest: sourceDigest,
    modelSource: z.string().nullable(),
  }),
  seal: z.strictObject({ algorithm: z.literal("SHA-256, RFC 8785"), study: digest, results: digest, record: digest }),
});

/** @throws {InputError} every field that is not as the schema says (the first ten) */
export function requireRecord(document: unknown): void {
  const parsed = recordSchema.safeParse(document);
  if (parsed.success) return;
  throw new InputError(schemaProblems(parsed.error, document).slice(0, 10));
}
