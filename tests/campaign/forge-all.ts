import { runStudy } from "../../server/runs/run-study.ts";
import { recordText, type SealedRecord } from "../../server/record/seal.ts";
import { loadStudyFile } from "../../server/shelves/study.ts";
import { forge, remembering, someOfLists } from "./forge.ts";
import type { Part } from "./part.ts";
import { seedOf } from "./seed.ts";

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

/** Mutations of the items of one list: of five items each way. */
const MOST_OF_LIST = 25;

/** Forged records: every leaf of every record altered, in every disguise. None passes. */
export const forgeAll: Part = {
  option: "forge",
  help: "forge N records (all six where no number is given), altering every value in every disguise, of long lists some",
  usual: RECORDS.length,
  async run(count, tell) {
    const counts = { forgeries: 0, "shown in the output": 0, "filled in as they were": 0, "within standard errors": 0 };
    const failures: string[] = [];
    const seed = seedOf("forge");
    for (const id of RECORDS.slice(0, count)) {
      const loaded = await loadStudyFile(`examples/${id}.json`, { trials: TRIALS });
      const record = JSON.parse(recordText((await runStudy(loaded)).record)) as SealedRecord;
      const tally = await forge(
        id,
        record,
        (all) => someOfLists(all, MOST_OF_LIST, seed),
        remembering(),
        (tried) => tell(`${id}: ${tried} forgeries`),
      );
      process.stdout.write(`--forge: ${id}: ${tally.tried} forgeries, ${tally.passed.length} passed\n`);
      counts.forgeries += tally.tried;
      counts["shown in the output"] += tally.shown;
      counts["filled in as they were"] += tally.filledIn;
      counts["within standard errors"] += tally.withinErrors;
      for (const { disguise, place, what, outcome } of tally.passed)
        failures.push(`${id}, ${disguise}: ${place} ${what} was not refused (${outcome})`);
    }
    return { counts, failures };
  },
};
