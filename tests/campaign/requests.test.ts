// The short form of the campaign of requests; npm run campaign has the long one.
import { afterAll, beforeAll, expect, test } from "vitest";
import { serve, type Serving } from "../../server/serve.ts";
import { requestFiles } from "./requests-part.ts";
import { requestCampaign } from "./requests.ts";

let serving: Serving;
beforeAll(async () => {
  serving = await serve({ host: "127.0.0.1", port: 0, workers: 1, store: null, warn: () => undefined });
});
afterAll(() => serving.close());

test("requests made from the document are answered as it says", async () => {
  const { requests, answers, failures, succeeded } = await requestCampaign(serving.url, 300, 11, requestFiles());
  expect(failures).toEqual([]);
  expect(requests).toBe(300);
  // They are neither all right nor all wrong.
  expect(answers["2xx"]).toBeGreaterThan(60);
  expect(answers["4xx"]).toBeGreaterThan(60);
  expect(succeeded).toBeGreaterThan(20);
});
