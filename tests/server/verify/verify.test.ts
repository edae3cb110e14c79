// What verification makes of a filed record: whole, altered, signed, of an older format. Needs dist/.
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { loadStudyDocument, loadStudyFile } from "../../../server/shelves/study.ts";
import { openPool, type Pool } from "../../../server/runs/pool/pool.ts";
import { deviations } from "../../../server/verify/compare.ts";
import { migrate } from "../../../engine/record/index.ts";
import { openDocument } from "../../../server/record/open.ts";
import { recordText, sealOf, type SealedRecord } from "../../../server/record/seal.ts";
import { makeKeys, signText } from "../../../server/record/signature.ts";
import { verifyRecord } from "../../../server/verify/verify.ts";
import { runStudy } from "../../../server/runs/run-study.ts";
import { readExample } from "../../read-example.ts";
import { LONG } from "../../setup/long.ts";

let record: SealedRecord;
let text: string;
let pool: Pool;
beforeAll(async () => {
  pool = await openPool(2);
  const loaded = await loadStudyDocument({ ...readExample("harrowfen/cold-store-4"), trials: 20_000 }, null);
  ({ record } = await runStudy(loaded, { pool: async () => pool }));
  text = recordText(record);
});
afterAll(() => pool.close());

/** Seals an altered record anew, as a forger would. */
const resealed = (change: (copy: SealedRecord) => void): string => {
  const copy = JSON.parse(text) as SealedRecord;
  change(copy);
  return recordText({ ...copy, seal: sealOf(copy) } as SealedRecord);
};

describe("a record that is whole", () => {
  test("follows its schema", () => expect(() => openDocument(JSON.parse(text), "r.json")).not.toThrow());

  test("made with two workers, reproduces exactly with one, with two, and with none", async () => {
    const one = await openPool(1);
    for (const options of [{}, { pool: async () => one }, { pool: async () => pool }]) {
      const { outcome, reasons } = await verifyRecord(text, "r.json", options);
      expect(reasons).toEqual([]);
      expect(outcome).toBe("bits");
    }
    await one.close();
  });

  const verifies = async (id: string): Promise<void> => {
    const loaded = await loadStudyDocument({ ...readExample(id), trials: 20_000 }, null);
    const made = recordText((await runStudy(loaded)).record);
    expect(await verifyRecord(made, "r.json", { pool: async () => pool })).toMatchObject({
      outcome: "bits",
      reasons: [],
    });
  };
  test("published/impedance verifies", () => verifies("published/impedance"));
  test.each(["published/common-term-normal", "verdicts/curvature", "harrowfen/pasteuriser-72"])(
    "%s verifies",
    LONG,
    verifies,
  );

  test("with a model of one's own carries the model, and runs it only when told to trust it", async () => {
    const path = new URL("../../../examples/density/check-weight.json", import.meta.url).pathname;
    const made = recordText((await runStudy(await loadStudyFile(path, { trials: 20_000 }))).record);
    expect(await verifyRecord(made, "r.json")).toMatchObject({
      outcome: "refused",
      reasons: [expect.stringContaining("--trust-model")],
    });
    expect(await verifyRecord(made, "r.json", { trustModel: true })).toMatchObject({ outcome: "bits" });
  });
});

describe("a record that was altered is refused", () => {
  test("in any one byte (property)", LONG, async () => {
    const last = text.length - 1;
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 0, max: last }),
        fc.constantFrom(...'0123456789 .-e"{}[],:aX\n'),
        async (at, replacement) => {
          fc.pre(text[at] !== replacement);
          const altered = text.slice(0, at) + replacement + text.slice(at + 1);
          // Not run again: refusal must come before that, or an attacker could make us work.
          const { outcome } = await verifyRecord(altered, "r.json", {
            pool: () => Promise.reject(new Error("it was run again")),
          });
          expect(outcome).toBe("refused");
        },
      ),
      { numRuns: 300, seed: 2026 },
    );
  });

  test("in any one figure, sealed anew by a forger (property): the repetition gives it away", async () => {
    const leaves: (readonly (string | number)[])[] = [];
    const collect = (value: unknown, path: readonly (string | number)[]): void => {
      if (typeof value === "number") leaves.push(path);
      else if (typeof value === "object" && value !== null)
        for (const [key, item] of Object.entries(value)) collect(item, [...path, key]);
    };
    collect(record.measurands, ["measurands"]);
    collect(record.trials, ["trials"]);
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...leaves), async (path) => {
        const forged = resealed((copy) => {
          const parent = path
            .slice(0, -1)
            .reduce<unknown>((value, key) => (value as Record<string, unknown>)[key], copy) as Record<string, number>;
          const key = path.at(-1)!;
          parent[key] = Number.isInteger(parent[key]) ? parent[key]! + 1 : parent[key]! * (1 + 2 ** -52);
        });
        const { outcome } = await verifyRecord(forged, "r.json");
        expect(outcome).toBe("refused");
      }),
      { numRuns: 6, seed: 2026 },
    );
  });

  test("the figure that differs is named", async () => {
    const forged = resealed((copy) => Object.assign(copy.measurands["error"]!.linear, { standardUncertainty: 1 }));
    const { reasons } = await verifyRecord(forged, "r.json");
    expect(reasons.join("\n")).toContain(
      `measurands.error.linear.standardUncertainty is 1, repeated ${record.measurands["error"]!.linear.standardUncertainty}`,
    );
  });

  test.each([
    ["another seed", (copy: SealedRecord) => Object.assign(copy.study, { seed: "other" })],
    ["a digest", (copy: SealedRecord) => Object.assign(copy.seal, { results: "0".repeat(64) })],
  ])("%s", async (_, change) => {
    const copy = JSON.parse(text) as SealedRecord;
    change(copy);
    expect(await verifyRecord(recordText(copy), "r.json")).toMatchObject({
      outcome: "refused",
      reasons: expect.arrayContaining([expect.stringContaining("digest does not match")]),
    });
  });

  test.each([
    ["text that is not JSON", "{", /not JSON/],
    ["another document", '{"format": "something"}', /not a record of Trialband/],
    ["a list", "[]", /not a record of Trialband/],
    ["a record without measurands", '{"format": "trialband-record/2"}', /./],
  ])("%s", async (_, document, reason) => {
    const { outcome, reasons } = await verifyRecord(document, "r.json");
    expect(outcome).toBe("refused");
    expect(reasons[0]).toMatch(reason);
  });
});

describe("signature", () => {
  const keys = makeKeys();
  test("holds for the record and the key, and for no other", async () => {
    const signature = signText(text, keys.privateKey);
    expect(await verifyRecord(text, "r.json", { signature, publicKey: keys.publicKey })).toMatchObject({
      outcome: "bits",
    });
    expect(await verifyRecord(text, "r.json", { signature, publicKey: makeKeys().publicKey })).toMatchObject({
      outcome: "refused",
    });
    const forged = resealed((copy) => Object.assign(copy.environment!, { workers: 9 }));
    expect(await verifyRecord(forged, "r.json", { signature, publicKey: keys.publicKey })).toMatchObject({
      outcome: "refused",
      reasons: [expect.stringContaining("signature")],
    });
  });
  test("a key or signature that is none is told", async () => {
    expect(() => signText(text, "not a key")).toThrow(/Ed25519 key in PEM form/);
    expect(await verifyRecord(text, "r.json", { signature: { format: "x" } })).toMatchObject({
      outcome: "refused",
      reasons: [expect.stringContaining("signature file")],
    });
  });
});

describe("an older format", () => {
  const old = readFileSync(new URL("../record/format-1.json", import.meta.url), "utf8");
  test("is brought to today's, figures untouched", () => {
    const before = JSON.parse(old) as SealedRecord;
    const { record: after, from } = migrate(before)!;
    expect(from).toBe("trialband-record/1");
    expect((after as unknown as SealedRecord).measurands["error"]!.monteCarlo).toEqual(
      before.measurands["error"]!.monteCarlo,
    );
  });
  test(
    "is refused: it is worded otherwise and, signed by a key given, stopped by another rule than today's",
    LONG,
    async () => {
      const unsigned = await verifyRecord(old, "old.json", { pool: async () => pool });
      expect(unsigned).toMatchObject({ outcome: "refused" });
      expect(unsigned.notes.join(" ")).toContain("had no digests");
      const { privateKey, publicKey } = makeKeys();
      const signature = signText(old, privateKey);
      const signed = await verifyRecord(old, "old.json", { signature, publicKey, pool: async () => pool });
      expect(signed.agreement!.disagreements.filter(({ wording }) => !wording).map(({ place }) => place)).toEqual([
        "trials.count",
        "trials.stop",
        "measurands.error.monteCarlo.settling.settled",
      ]);
    },
  );
});

describe("a record in the wording of an earlier version", () => {
  const worded = (sentence: (today: string) => string): string =>
    resealed((copy) => {
      const { validation } = copy.measurands["error"]!;
      Object.assign(validation, { sentence: sentence(validation.sentence) });
      Object.assign(copy.provenance, { engineDigest: "0".repeat(64) });
    });
  test("agrees: it says the same of the same figures", async () => {
    const former = worded((today) => today.replaceAll("u(e)", "u(y)"));
    expect(former).toContain("of u(y)");
    const { outcome, reasons } = await verifyRecord(former, "r.json", { pool: async () => pool });
    expect({ outcome, reasons }).toEqual({ outcome: "agrees", reasons: [] });
  });
  test("is refused if it says another thing", LONG, async () => {
    const other = worded((today) => today.replaceAll("u(e)", "u(y)").replace("is validated", "is beyond doubt"));
    const { outcome, differences } = await verifyRecord(other, "r.json", { pool: async () => pool });
    expect(outcome).toBe("refused");
    expect(differences.map(({ place }) => place)).toEqual(["measurands.error.validation.sentence"]);
  });
});

test("deviations name every place, and nothing that is the same", () => {
  expect(deviations({ a: [1, { b: 2 }], c: null }, { a: [1, { b: 2 }], c: null })).toEqual([]);
  expect(deviations({ a: [1, { b: 2 }] }, { a: [1, { b: 3 }], d: 0 }).map(({ place }) => place)).toEqual([
    "a.1.b",
    "d",
  ]);
});
