import { runStudy } from "../../server/runs/run-study.ts";
import { recordText, type SealedRecord } from "../../server/record/seal.ts";
import { loadStudyFile } from "../../server/shelves/study.ts";
import { forge, remembering } from "./forge.ts";
import type { Part } from "./part.ts";

/** Records of every kind: several measurands, a sweep, a fitted curve, conformity, sensitivity, shortest intervals. */
const RECORDS = [
  "published/additive-normal",
  "published/mass-calibration",
  "published/impedance",
  "published/thermometer-line",
  "verdicts/curvature",
  "harrowfen/pasteuriser-72",
];
/** Trials of each record: as few as its coverage probability allows, since what is forged does not depend on them. */
const TRIALS = 5000;

/** Forged records: every leaf of every record altered, in every disguise. None passes. */
export const forgeAll: Part = {
  option: "forge",
  help: "forge N records (all six where no number is given), altering every value in every disguise",
  usual: RECORDS.length,
  async run(count, tell) {
    const counts = { forgeries: 0, "shown in the output": 0, "within standard errors": 0 };
    const failures: string[] = [];
    for (const id of RECORDS.slice(0, count)) {
      const loaded = await loadStudyFile(`examples/${id}.json`, { trials: TRIALS });
      const record = JSON.parse(recordText((await runStudy(loaded)).record)) as SealedRecord;
      const tally = await forge(
        id,
        record,
        () => true,
        remembering(),
        (tried) => tell(`${id}: ${tried} forgeries`),
      );
      counts.forgeries += tally.tried;
      counts["shown in the output"] += tally.shown;
      counts["within standard errors"] += tally.withinErrors;
      for (const { disguise, place, what, outcome } of tally.passed)
        failures.push(`${id}, ${disguise}: ${place} ${what} was not refused (${outcome})`);
    }
    return { counts, failures };
  },
};
