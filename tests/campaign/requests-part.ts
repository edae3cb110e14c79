import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { packageRoot } from "../../server/package-root.ts";
import type { Part } from "./part.ts";
import { seedOf } from "./seed.ts";
import { requestCampaign, type SentFile } from "./requests.ts";
import { startServing } from "./serving.ts";

/** Files for routes that take one, before anything is changed in them. */
export const requestFiles = (): readonly SentFile[] =>
  [
    ["budget.csv", "budget-72.csv"],
    ["survey.json", "pasteuriser-72.json"],
    ["pasteuriser-72.csv", "pasteuriser-72.csv"],
  ].map(([name, file]) => ({
    name: name!,
    bytes: readFileSync(join(packageRoot(), "examples/survey", file!)),
  }));

/** Requests that the document of the interface allows, almost allows and does not allow: each is answered as it says. */
export const requests: Part = {
  option: "requests",
  help: "send N requests made from the interface's document and hold each answer against it",
  usual: 20_000,
  async run(count, tell) {
    const store = mkdtempSync(join(tmpdir(), "trialband-requests-"));
    const seed = seedOf("requests");
    const serving = await startServing(store);
    try {
      const {
        answers,
        failures: found,
        ...counts
      } = await requestCampaign(serving.url, count, seed, requestFiles(), tell);
      const { exitCode, signalCode } = serving.process;
      const failures =
        exitCode === null && signalCode === null
          ? found
          : [`the server ended by itself (${signalCode ?? exitCode}): ${serving.said()}`, ...found];
      return {
        counts: {
          requests: counts.requests,
          ...Object.fromEntries(
            Object.entries(answers)
              .toSorted()
              .map(([kind, n]) => [`answered ${kind}`, n]),
          ),
          "operations that succeeded": counts.succeeded,
          "operations in all": counts.operations,
          "ms at most": counts.slowestMs,
        },
        failures,
      };
    } finally {
      await serving.stop();
      rmSync(store, { recursive: true, force: true });
    }
  },
};
