import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { makeDossier, type Dossier } from "../../../server/dossier/make.ts";
import { recordText, type SealedRecord } from "../../../server/record/seal.ts";
import { runStudy } from "../../../server/runs/run-study.ts";
import { loadStudyDocument } from "../../../server/shelves/study.ts";
import { readExample } from "../../read-example.ts";

const LOG = readFileSync(new URL("../../../examples/survey/pasteuriser-72.csv", import.meta.url));
const digest = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");

/** A study whose first input rests on a log of the examples, and on one that nobody has. */
export async function recordWithEvidence(): Promise<SealedRecord> {
  const study = readExample("published/additive-normal") as { inputs: Record<string, object> } & { model: string };
  const [first, ...others] = Object.entries(study.inputs);
  const evidence = {
    method: "half the span of the worst window",
    files: [
      { name: "pasteuriser-72.csv", sha256: digest(LOG) },
      { name: "lost.csv", sha256: "0".repeat(64) },
    ],
    figures: [{ name: "window", value: 600, unit: "s" }],
  };
  const document = {
    ...study,
    trials: 20_000,
    inputs: Object.fromEntries([[first![0], { ...first![1], evidence }], ...others]),
  };
  return (await runStudy(await loadStudyDocument(document, null))).record;
}

export const dossierOf = (record: SealedRecord, signature?: Uint8Array): Promise<Dossier> =>
  makeDossier(recordText(record), "record.json", {
    ...(signature === undefined ? {} : { signature }),
    evidence: async ({ sha256 }) => (sha256 === digest(LOG) ? LOG : null),
    today: new Date("2026-11-29T12:00:00Z"),
  });
