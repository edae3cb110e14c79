import {
  histogramOf,
  shortestInterval,
  show,
  symmetricInterval,
  type Histogram,
  type Sample,
} from "../../engine/index.ts";
import type { ChosenInterval } from "../../viewer/api/measurands.ts";
import { Fault } from "../errors.ts";
import type { Dependencies, RouteRegistration } from "./route.ts";

const MOST_BINS = 2000;

/** Pictures and intervals of a reader's choice from the whole sample of a finished run. */
export const measurands: RouteRegistration = (router, dependencies) => {
  router.get("/runs/:id/measurands/:name/histogram", "read", async (request, response) => {
    const bins = numberFrom(
      request.query["bins"],
      "bins",
      (n) => Number.isInteger(n) && n >= 1 && n <= MOST_BINS,
      `a whole number from 1 to ${MOST_BINS}`,
    );
    response.json(histogramOf(await sampleOf(dependencies, request.params), bins) satisfies Histogram);
  });

  router.get("/runs/:id/measurands/:name/interval", "read", async (request, response) => {
    const p = numberFrom(request.query["p"], "p", (n) => n > 0 && n < 1, "a number between 0 and 1, such as 0.95");
    const sample = await sampleOf(dependencies, request.params);
    response.json({
      probability: p,
      symmetric: symmetricInterval(sample, p),
      shortest: shortestInterval(sample, p),
    } satisfies ChosenInterval);
  });
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

function numberFrom(text: unknown, place: string, fits: (n: number) => boolean, accepted: string): number {
  const value = typeof text === "string" && text.trim() !== "" ? Number(text) : Number.NaN;
  if (Number.isFinite(value) && fits(value)) return value;
  throw new Fault("bad-input", "The request cannot be used.", [{ place, value: show(text), accepted }]);
}
