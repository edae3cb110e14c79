import { show, type Histogram } from "../../engine/index.ts";
import { histogramOf, shortestInterval, symmetricInterval, type Sample } from "../../engine/internal.ts";
import { histogramSchema } from "../../engine/record/index.ts";
import { chosenInterval, histogramQuery, intervalQuery, type ChosenInterval } from "../../viewer/api/measurands.ts";
import { Fault } from "../errors.ts";
import { json } from "../openapi/described.ts";
import { bodyOf } from "./body.ts";
import type { Dependencies, RouteRegistration } from "./route.ts";

/** Pictures and intervals of a reader's choice from the whole sample of a finished run. */
export const measurands: RouteRegistration = (router, dependencies) => {
  const path = { id: "Id of a finished run.", name: "Name of one of its measurands." };
  const faults = ["no-such-run", "no-such-measurand", "not-finished", "worker-lost", "busy"] as const;

  router.get(
    "/runs/:id/measurands/:name/histogram",
    "read",
    {
      id: "getHistogram",
      summary: "A histogram of a measurand's trials",
      path,
      query: histogramQuery,
      answers: {
        200: { description: "Bins of equal width over the middle of the sample.", content: json(histogramSchema) },
      },
      faults,
    },
    async (request, response) => {
      const { bins } = bodyOf(histogramQuery, request.query);
      response.json(histogramOf(await sampleOf(dependencies, request.params), bins) satisfies Histogram);
    },
  );

  router.get(
    "/runs/:id/measurands/:name/interval",
    "read",
    {
      id: "getInterval",
      summary: "Coverage intervals of a measurand at a probability of one's choice",
      path,
      query: intervalQuery,
      answers: { 200: { description: "The symmetric and the shortest interval.", content: json(chosenInterval) } },
      faults,
    },
    async (request, response) => {
      const { p } = bodyOf(intervalQuery, request.query);
      const sample = await sampleOf(dependencies, request.params);
      response.json({
        probability: p,
        symmetric: symmetricInterval(sample, p),
        shortest: shortestInterval(sample, p),
      } satisfies ChosenInterval);
    },
  );
};

async function sampleOf({ runs }: Dependencies, { id, name }: { id: string; name: string }): Promise<Sample> {
  const { record } = await runs.read(id);
  if (record !== null && !Object.hasOwn(record.measurands, name)) {
    throw new Fault(
      "no-such-measurand",
      `Run ${id} has no measurand ${show(name)}; it has ${Object.keys(record.measurands).join(", ")}.`,
    );
  }
  return (await runs.sample(id)).sample(name);
}
