// However the work is shared, the record is the same, bit for bit. Needs dist/ (the tests' set-up builds it).
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { loadStudyDocument } from "../../../server/shelves/study.ts";
import { openPool, type Pool } from "../../../server/runs/pool/pool.ts";
import { runStudy } from "../../../server/runs/run-study.ts";
import { runExample, readExample } from "../../read-example.ts";

/** What must repeat, as it is filed: all but the time and place of the run, and what files it. */
const repeated = (record: object): unknown =>
  JSON.parse(JSON.stringify({ ...record, environment: undefined, provenance: undefined, seal: undefined }));

type Sharing = "one thread" | "one worker" | "two workers" | "a mixture";
export const EVERY_SHARING: readonly Sharing[] = ["one thread", "one worker", "two workers", "a mixture"];

/** Examples with some of their fields replaced, each run with every sharing of the work. */
export function sameRecord(
  cases: readonly (readonly [id: string, changes: Readonly<Record<string, unknown>>])[],
  sharings: readonly Sharing[],
): void {
  describe(`${sharings.join(", ")} give the record of the engine alone, bit for bit`, () => {
    let one: Pool;
    let two: Pool;
    beforeAll(async () => {
      [one, two] = await Promise.all([openPool(1), openPool(2)]);
    });
    afterAll(() => Promise.all([one.close(), two.close()]));
    const options = {
      "one thread": {},
      "one worker": { pool: async () => one },
      "two workers": { pool: async () => two },
      "a mixture": { pool: async () => two, aloneFirst: 20_000 },
    };

    test.each(cases)("%s", async (id, changes) => {
      const alone = repeated(runExample(id, changes));
      const loaded = await loadStudyDocument({ ...readExample(id), ...changes }, null);
      for (const sharing of sharings) {
        const { record } = await runStudy(loaded, options[sharing]);
        // A deep comparison, so that a failure names the figure that differs.
        expect(repeated(record), sharing).toEqual(alone);
      }
    });
  });
}
