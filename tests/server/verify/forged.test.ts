// Forged records: every digest made anew, and whatever a record may say of its maker. Needs dist/.
import { beforeAll, describe, expect, test } from "vitest";
import { loadStudyDocument } from "../../../server/shelves/study.ts";
import { runStudy } from "../../../server/runs/run-study.ts";
import { recordText, sealOf, type SealedRecord } from "../../../server/record/seal.ts";
import { makeKeys, signText } from "../../../server/record/signature.ts";
import { verifyRecord } from "../../../server/verify/verify.ts";
import { DISGUISES, forge, forged, remembering } from "../../campaign/forge.ts";
import { readExample } from "../../read-example.ts";
import { LONG } from "../../setup/long.ts";

const made = async (id: string, changes: Record<string, unknown> = {}): Promise<SealedRecord> => {
  const loaded = await loadStudyDocument({ ...readExample(id), trials: 20_000, ...changes }, null);
  return JSON.parse(recordText((await runStudy(loaded)).record)) as SealedRecord;
};

type Measurand = SealedRecord["measurands"][string];
const changed =
  (change: (measurand: Measurand) => object) =>
  (record: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> => {
    const measurands = record["measurands"] as SealedRecord["measurands"];
    return {
      ...record,
      measurands: Object.fromEntries(
        Object.entries(measurands).map(([name, measurand]) => [name, { ...measurand, ...change(measurand) }]),
      ),
    };
  };

const FORGERIES = {
  "a flipped verdict": changed(({ validation }) => ({
    validation: { ...validation, validated: !validation.validated },
  })),
  "a halved U": changed(({ linear }) => ({
    linear: { ...linear, expandedUncertainty: linear.expandedUncertainty / 2 },
  })),
  "a halved u of the trials": changed(({ monteCarlo }) => ({
    monteCarlo: { ...monteCarlo, standardUncertainty: monteCarlo.standardUncertainty! / 2 },
  })),
  "an end moved by ten standard errors": changed(({ monteCarlo }) => ({
    monteCarlo: {
      ...monteCarlo,
      intervals: {
        ...monteCarlo.intervals,
        symmetric: [
          monteCarlo.intervals.symmetric[0] + 10 * monteCarlo.standardErrors.symmetric[0],
          monteCarlo.intervals.symmetric[1],
        ],
      },
    },
  })),
  "another unit": changed(() => ({ unit: "mK" })),
  "emptied remarks": (record: Readonly<Record<string, unknown>>) => ({ ...record, remarks: [] }),
  "emptied cautions": (record: Readonly<Record<string, unknown>>) => ({ ...record, cautions: [] }),
  "another sentence": changed(({ validation }) => ({
    validation: { ...validation, sentence: "The linear budget is validated." },
  })),
};

describe("a forged record is refused", () => {
  const repeat = remembering();
  let record: SealedRecord;
  beforeAll(async () => {
    record = await made("harrowfen/cold-store-4");
  });

  describe.each(Object.keys(DISGUISES))("%s", (disguise) => {
    test.each(Object.keys(FORGERIES) as (keyof typeof FORGERIES)[])("%s", async (forgery) => {
      const text = forged(record, FORGERIES[forgery], DISGUISES[disguise]!);
      expect(await verifyRecord(text, "r.json", { repeat })).toMatchObject({ outcome: "refused" });
    });
  });

  test(
    "without that it gives a difference, which a version up to 0.5.0 left out of temperatures alone",
    LONG,
    async () => {
      const id = "published/thermometer-line";
      const tally = await forge(
        id,
        await made(id),
        () =>
          ({ place, what }) =>
            what === "removed" && /^measurands\.\w+\.difference$/.test(place),
      );
      expect(tally.passed).toEqual([]);
      expect(tally.tried).toBeGreaterThan(4);
    },
  );

  // One leaf in so many, from another start in each disguise; npm run campaign -- --forge tries them all.
  test.each([
    ["published/additive-normal", 151],
    ["published/impedance", 1999],
  ])("in leaves of %s taken one in %i", LONG, async (id, step) => {
    const tally = await forge(id, await made(id), () => (_, i) => i % step === 7);
    expect(tally.passed).toEqual([]);
    expect(tally.tried).toBeGreaterThan(20);
  });
});

describe("a record that another version made", () => {
  const another = (record: SealedRecord): string => forged(record, (same) => same, DISGUISES["another version"]!);

  test("agrees, and the output says so in words", async () => {
    const result = await verifyRecord(another(await made("verdicts/curvature")), "r.json");
    expect(result.reasons).toEqual([]);
    expect(result.outcome).toBe("agrees");
    expect(result.notes.join("\n")).toMatch(/Another version was at work by the record's own word: Trialband 0\.2\.9/);
    expect(result.notes.join("\n")).toMatch(/Nothing attests that word/);
  });

  // Other draws stand in for another version's: every figure scatters, every sentence has other numbers.
  test.each([
    ["harrowfen/cold-store-4", {}],
    ["verdicts/curvature", {}],
    ["published/impedance", {}],
    ["published/mass-calibration", {}],
    ["published/common-term-normal", { trials: "adaptive", maximumTrials: 400_000 }],
  ])("whose draws were others still agrees: %s", LONG, async (id, changes) => {
    const record = await made(id, { ...changes, seed: "another version's draws" });
    const { seed } = (await made(id, { trials: 5000 })).study;
    const copy = {
      ...record,
      study: { ...record.study, seed },
      generator: { ...record.generator, seed },
      engine: { ...record.engine, version: "0.2.9" },
    };
    const result = await verifyRecord(recordText({ ...copy, seal: sealOf(copy) } as SealedRecord), "r.json");
    expect(result.reasons).toEqual([]);
    expect(result.outcome).toBe("agrees");
  });

  test("and words things otherwise is refused, unless a key that was given signed it", LONG, async () => {
    const record = await made("verdicts/curvature");
    const text = forged(
      record,
      (same) => ({ ...same, cautions: ["Oil burns: be careful."] }),
      DISGUISES["another version"]!,
    );
    expect(await verifyRecord(text, "r.json")).toMatchObject({ outcome: "refused" });
    const { privateKey, publicKey } = makeKeys();
    const signature = signText(text, privateKey);
    expect(await verifyRecord(text, "r.json", { signature })).toMatchObject({ outcome: "refused" });
    expect(await verifyRecord(text, "r.json", { signature, publicKey })).toMatchObject({
      outcome: "agrees",
      notes: expect.arrayContaining([expect.stringContaining("words it otherwise")]),
    });
  });
});
