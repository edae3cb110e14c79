import { z } from "zod";
import type { SurveyEvaluation } from "../../models/index.ts";
import type { Sent } from "./sent.ts";

/** What is checked of a survey: what is asked for, with its source, and what was found, in words with figures. */
export const checkFound = z
  .strictObject({ check: z.string(), passed: z.boolean(), found: z.string() })
  .meta({ id: "SurveyCheck" });

const sampling = z.strictObject({
  samples: z.int(),
  from: z.number(),
  to: z.number(),
  interval: z.number().describe("Median interval between samples, s"),
  maximumGap: z.number().describe("What counts as a gap, s"),
  gaps: z.array(z.strictObject({ from: z.number(), to: z.number() })),
});

const degreesOfFreedom = z.number().nullable().describe("Degrees of freedom; null if they are infinitely many");

/** A mean of repeated values and how well it is known (JCGM 100, 4.2). */
export const typeA = z
  .strictObject({
    count: z.int(),
    mean: z.number(),
    standardDeviation: z.number().describe("Of a single value"),
    effectiveCount: z.number().describe("The count, less if the values are correlated"),
    standardUncertainty: z.number(),
    degreesOfFreedom,
    basis: z.enum(["own dispersion", "pooled history", "own dispersion, correlated", "pooled history, correlated"]),
    pooled: z.strictObject({ standardDeviation: z.number(), degreesOfFreedom }).nullable(),
    outliers: z.strictObject({
      test: z.string(),
      source: z.string(),
      significance: z.number(),
      steps: z.array(
        z.strictObject({ index: z.int(), value: z.number(), statistic: z.number(), critical: z.number() }),
      ),
      flagged: z.array(z.int()).describe("Indices of the values to check again; they stay in every figure"),
      untested: z.string().nullable().describe("Why nothing was tested, if nothing was"),
    }),
    autocorrelation: z.strictObject({
      count: z.int(),
      effective: z.number(),
      lagOne: z.number(),
      lagOneLimit: z.number().describe("What the correlation of independent neighbours stays below 19 times in 20"),
      lags: z.int().describe("Number of lags summed"),
    }),
    checks: z.array(checkFound),
    reasoning: z.array(z.string()),
  })
  .meta({ id: "TypeAEvaluation" });

const synchronousDifference = z.strictObject({
  first: z.string(),
  second: z.string(),
  from: z.number(),
  to: z.number(),
  samples: z.int().describe("Readings of the first for which the second was known"),
  interpolated: z.int().describe("How many of these rest on an interpolation between two readings of the second"),
  typeA: typeA.describe("Mean difference first − second, K"),
  movement: z.number().describe("What the difference itself moved by over the time, K"),
  movementStandardUncertainty: z.number(),
});

const stabilityWindow = z
  .strictObject({
    from: z.number(),
    to: z.number(),
    samples: z.int(),
    halfRange: z.number().describe("Half the span from the lowest reading to the highest, K"),
    standardDeviation: z.number(),
    slope: z.number().describe("Drift, K/s"),
    fluctuation: z.number().describe("What fluctuates about the drift, K"),
  })
  .meta({ id: "StabilityWindow" });

const stability = z.strictObject({
  thermometer: z.string(),
  sampling,
  window: z.number().describe("Length of the windows, s"),
  windows: z.int(),
  worst: stabilityWindow,
  best: stabilityWindow,
  whole: stabilityWindow,
  allan: z.array(
    z.strictObject({
      time: z.number().describe("Averaging time, s"),
      averaged: z.int().describe("Readings averaged"),
      deviation: z.number().describe("Overlapping Allan deviation, K"),
      differences: z.int().describe("Differences it rests on"),
    }),
  ),
  readingNoise: z.number().nullable().describe("Allan deviation at one sampling interval; null for an uneven log"),
  noiseAdded: z
    .number()
    .nullable()
    .describe("What that noise adds to the half-span of a window at most, on average, K; null for an uneven log"),
  cycle: z
    .strictObject({ length: z.number().describe("s"), worst: stabilityWindow })
    .nullable()
    .describe("Over one cycle of the comparison; null if it is not stated"),
  halfWidth: z.number().describe("Half the span of the worst window, or of the worst cycle if one is stated, K"),
  checks: z.array(checkFound),
  reasoning: z.array(z.string()),
});

const zonePoint = z
  .strictObject({
    position: z.string(),
    depth: z.number().describe("mm below the surface"),
    radius: z.number().describe("mm from the axis"),
    direction: z.string().nullable(),
    difference: z.number().describe("Temperature there minus that at the reference position, K"),
    standardUncertainty: z.number(),
    degreesOfFreedom,
  })
  .meta({ id: "ZonePoint" });

const pair = z.tuple([z.string(), z.string()]);

const zoneMap = z.strictObject({
  points: z.array(zonePoint),
  reference: zonePoint,
  comparisons: z.array(
    z.strictObject({
      position: z.string(),
      pair,
      method: z.enum(["swapped", "moved"]),
      steps: z.array(z.int()).describe("Steps of the description it rests on"),
      difference: z.number(),
      offset: z.number(),
      standardUncertainty: z.number(),
      degreesOfFreedom,
    }),
  ),
  offsets: z.array(z.strictObject({ pair, offset: z.number(), standardUncertainty: z.number(), from: z.string() })),
  unresolved: z.array(z.string()).describe("Positions that no pair of placements connects with the reference position"),
  checks: z.array(checkFound),
});

const zoneAxis = z.enum(["axial", "radial"]);
const span = z.tuple([z.number(), z.number()]);

const axisEvaluation = z
  .strictObject({
    axis: zoneAxis,
    zone: span.describe("Zone along this axis, mm: depths, or radii"),
    limits: z.strictObject({
      lowest: z.number(),
      highest: z.number(),
      noise: z.number().describe("Largest standard uncertainty among the points the limits rest on, K"),
    }),
    quantity: z.strictObject({
      estimate: z.number(),
      halfWidth: z.number().describe("Widened so that its standard uncertainty holds that of the survey too, K"),
      ofDifferences: z.number().describe("Of the differences found, as if they were known exactly, K"),
      distribution: z.enum(["rectangular", "triangular"]),
      because: z.string(),
    }),
    lines: z.array(z.strictObject({ axis: zoneAxis, direction: z.string().nullable(), points: z.array(zonePoint) })),
    smaller: z
      .array(z.strictObject({ from: z.number(), to: z.number(), halfWidth: z.number(), gain: z.number() }))
      .describe("Smaller zones (depths or radii, mm), the half-width each leaves and what is gained, K"),
    checks: z.array(checkFound),
    reasoning: z.array(z.string()),
  })
  .meta({ id: "AxisEvaluation" });

const bathSafety = z.strictObject({
  fluid: z
    .strictObject({
      kind: z.string(),
      title: z.string(),
      usable: span.describe("Usual range of temperature in an open stirred bath, °C"),
      combustible: z.boolean(),
      flashPoint: z
        .number()
        .nullable()
        .describe("Lowest closed-cup flash point found in print, °C: a hint, never a figure to rely on"),
      flashPointNote: z.string(),
      expansion: z.number().nullable().describe("Expansion of its volume, 1/K, if known"),
      viscosity: z.number().nullable().describe("Kinematic viscosity at 25 °C by its name, mm²/s"),
      hazard: z.enum(["water", "alcohol", "oil", "salt"]),
      source: z.string(),
    })
    .nullable(),
  warnings: z
    .array(z.strictObject({ place: z.string(), warning: z.string(), because: z.string() }))
    .describe("What seems wrong in what was stated, and why"),
  unknown: z.array(z.string()).describe("What could not be judged, because it was not stated"),
  cautions: z.array(z.string()),
});

/** An evaluation as it is sent. */
export const surveyEvaluation = z
  .strictObject({
    title: z.string(),
    samplings: z.record(z.string(), sampling),
    steps: z.array(
      z.strictObject({
        step: z.int().describe("Index in the description"),
        from: z.number(),
        to: z.number(),
        at: z.record(z.string(), z.string()),
        moved: z.boolean().describe("Whether a thermometer moved at its start"),
      }),
    ),
    pairs: z.array(
      z.strictObject({
        step: z.int(),
        positions: pair,
        difference: synchronousDifference,
      }),
    ),
    stay: z.strictObject({ thermometer: z.string(), position: z.string(), from: z.number(), to: z.number() }),
    stability,
    map: zoneMap,
    axial: axisEvaluation.nullable().describe("null if no position differs along this axis alone"),
    radial: axisEvaluation.nullable().describe("null if no position differs along this axis alone"),
    outlines: z
      .array(
        z.strictObject({
          thermometer: z.string(),
          times: z.array(z.number()).describe("Middle of each time, s"),
          lowest: z.array(z.number()),
          highest: z.array(z.number()),
        }),
      )
      .describe("The logs in little, for a picture"),
    safety: bathSafety.nullable(),
    checks: z.array(checkFound),
    reasoning: z.array(z.string()),
  })
  .meta({ id: "SurveyEvaluation" }) satisfies z.ZodType<Sent<SurveyEvaluation>>;
