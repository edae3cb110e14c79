import { openPool } from "../../runs/pool/pool.ts";
import { loadStudyFile, type LoadedStudy } from "../../shelves/study.ts";
import { recordText, type SealedRecord } from "../../record/seal.ts";
import { verifyRecord } from "../../verify/verify.ts";
import { runStudy } from "../../runs/run-study.ts";
import { join } from "node:path";
import { packageRoot } from "../../package-root.ts";
import type { Finding } from "../../../viewer/api/selfcheck.ts";
import type { Check, CheckContext, CheckGroup } from "../check.ts";
import { same } from "../judge.ts";

/** A record reproduces exactly, bit for bit, however the work is shared, and an altered one is detected. */
export const repeatability: CheckGroup = {
  id: "repeatability",
  title: "Records: reproduced exactly, and alterations detected",
  checks: (quick) => [
    ...(quick
      ? ["mass-calibration", "polar-010-correlated"]
      : ["mass-calibration", "polar-010-correlated", "gauge-block", "comparison-loss-50-correlated"]
    ).map(sharedWork),
    {
      title: "verifying",
      source: "definition: a filed record reproduces exactly, bit for bit, and an altered one is refused",
      lines: verifying,
    },
  ],
};

const load = (name: string, trials: number | "adaptive"): Promise<LoadedStudy> =>
  loadStudyFile(join(packageRoot(), "examples/published", `${name}.json`), { trials });

const sharedWork = (name: string): Check => ({
  title: `${name} on one and on two threads`,
  source: "definition: the results' digest (SHA-256, RFC 8785) does not depend on how the work is shared",
  async lines(context) {
    // A number that is no multiple of a batch, so that the last one is cut short.
    const loaded = await load(name, context.quick ? 123_456 : 1_234_567);
    const { record: alone } = await runStudy(loaded, { signal: context.signal });
    const findings: Finding[] = [];
    for (const workers of [1, 2]) {
      const shared = await withWorkers(workers, loaded, context);
      findings.push(
        same(
          `${name}: this thread alone, and ${workers} worker${workers === 1 ? "" : "s"}`,
          alone.seal.results,
          shared.seal.results,
          "the same digest",
        ),
      );
    }
    return findings;
  },
});

async function withWorkers(workers: number, loaded: LoadedStudy, { signal }: CheckContext): Promise<SealedRecord> {
  const pool = await openPool(workers);
  try {
    return (await runStudy(loaded, { pool: async () => pool, signal })).record;
  } finally {
    await pool.close();
  }
}

async function verifying(context: CheckContext): Promise<Finding[]> {
  const { pool, signal } = context;
  const adaptive = await load("additive-one-dominant", "adaptive");
  const { record } = await runStudy(adaptive, { pool, signal });
  const text = recordText(record);
  const outcomeOf = async (filed: string): Promise<string> => (await verifyRecord(filed, "record", { signal })).outcome;
  const y = record.measurands["y"]!;
  const altered = (change: object): string => recordText({ ...record, measurands: { y: { ...y, ...change } } });
  const u = y.monteCarlo.standardUncertainty!;
  return [
    same("a record as it is filed", "bits", await outcomeOf(text), "reproduces exactly, bit for bit"),
    same(
      "the same with one figure moved by its last bit",
      "refused",
      await outcomeOf(altered({ monteCarlo: { ...y.monteCarlo, standardUncertainty: u * (1 + 2 ** -52) } })),
      "refused",
    ),
    same(
      "the same with the verdict turned",
      "refused",
      await outcomeOf(altered({ validation: { ...y.validation, validated: !y.validation.validated } })),
      "refused",
    ),
    same("the same with one byte more", "refused", await outcomeOf(`${text} `), "refused"),
  ];
}
