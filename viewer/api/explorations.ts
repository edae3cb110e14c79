import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";
import { problem } from "./fault.ts";
import { studySent } from "./study-document.ts";

/** Points of a scrambling that a request may ask for: the answer then takes seconds, for a model of usual cost. */
export const EXPLORATION_POINTS = [256, 1024, 4096] as const;

/** `POST /api/explorations`: few evaluations of a study's model at low-discrepancy points, no result to report. */
export const explorationRequest = z
  .object(
    {
      study: studySent,
      points: z
        .literal([...EXPLORATION_POINTS], "256, 1024 or 4096")
        .default(1024)
        .describe("Points of each of 16 scramblings"),
    },
    "a JSON object with a study",
  )
  .meta({ id: "ExplorationRequest" });
export type ExplorationRequest = z.input<typeof explorationRequest>;

const figure = z
  .strictObject({ value: z.number(), standardError: z.number() })
  .meta({ id: "ExploredFigure", description: "A value with its standard error, from independent scramblings" });

export const explorationAnswer = z
  .strictObject({
    problems: z.array(problem).describe("What is wrong with the study; none if it was explored"),
    explored: z
      .strictObject({
        points: z.int(),
        scramblings: z.int(),
        probability: z.number().describe("Coverage probability of the interval"),
        measurands: z.record(
          z.string(),
          z.strictObject({
            symbol: z.string(),
            meaning: z.string(),
            unit: z.string(),
            estimate: figure.nullable(),
            standardUncertainty: figure.nullable(),
            low: figure.describe("Lower endpoint of the interval"),
            high: figure.describe("Upper endpoint of the interval"),
          }),
        ),
      })
      .nullable()
      .describe("What was explored, or null if something is wrong"),
  })
  .meta({ id: "ExplorationAnswer" });
export type ExplorationAnswer = Immutable<z.output<typeof explorationAnswer>>;
