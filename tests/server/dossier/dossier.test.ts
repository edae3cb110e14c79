// A dossier as RFC 8493 asks of a bag, and everything that may be done to one.
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { zipSync } from "fflate";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { packBag, unpackBag } from "../../../server/dossier/archive.ts";
import { bagProblems, makeBag, payloadOf, type Files } from "../../../server/dossier/bag.ts";
import { verifyDossier } from "../../../server/dossier/verify-dossier.ts";
import { makeKeys, signText } from "../../../server/record/signature.ts";
import { recordText, sealOf, type SealedRecord } from "../../../server/record/seal.ts";
import { verifyRecord, type Verification } from "../../../server/verify/verify.ts";
import { dossierOf, recordWithEvidence } from "./dossiers.ts";

let record: SealedRecord;
let bytes: Uint8Array;
let files: Files;
let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "trialband-dossier-test-"));
  record = await recordWithEvidence();
  ({ bytes } = await dossierOf(record));
  files = unpackBag(bytes, "d.zip");
});
afterAll(() => rmSync(folder, { recursive: true }));

const verify = (packed: Uint8Array, publicKey?: string): Promise<Verification> =>
  verifyDossier(packed, "d.zip", (content, name, signed) =>
    verifyRecord(content, name, { ...signed, ...(publicKey === undefined ? {} : { publicKey }) }),
  );
const repacked = (changed: Files): Uint8Array => packBag("dossier", changed);
const text = (content: string): Uint8Array => new TextEncoder().encode(content);
/** The bag made anew with another payload, as a forger would who knows BagIt. */
const rebagged = (change: (payload: Map<string, Uint8Array>) => void): Uint8Array => {
  const payload = new Map(payloadOf(files));
  change(payload);
  return repacked(makeBag(payload, []));
};

describe("a dossier that is whole", () => {
  test("has what RFC 8493 asks of a bag, and what is behind the result", async () => {
    expect([...files.keys()].toSorted()).toEqual([
      "bag-info.txt",
      "bagit.txt",
      "data/dossier.json",
      expect.stringMatching(/^data\/evidence\/[0-9a-f]{64}-pasteuriser-72\.csv$/),
      "data/how-to-verify.txt",
      "data/record.json",
      "data/report-de.html",
      "data/report-en.html",
      "data/study.json",
      "manifest-sha256.txt",
      "tagmanifest-sha256.txt",
    ]);
    // RFC 8493, 2.1.1, to the byte.
    expect(new TextDecoder().decode(files.get("bagit.txt"))).toBe(
      "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n",
    );
    const { outcome, notes, reasons } = await verify(bytes);
    expect(reasons).toEqual([]);
    expect(outcome).toBe("bits");
    expect(notes.join("\n")).toContain("lost.csv");
  });

  test("has the same bytes whenever it is made", async () => {
    expect(Buffer.from((await dossierOf(record)).bytes).equals(Buffer.from(bytes))).toBe(true);
  });

  test.skipIf(spawnSync("python3", ["--version"]).status !== 0)("is accepted by another program", () => {
    const path = join(folder, "whole.zip");
    writeFileSync(path, bytes);
    const script = new URL("../../reference/bag.py", import.meta.url).pathname;
    expect(execFileSync("python3", [script, path], { encoding: "utf8" })).toBe("valid\n");
    const changed = new Map(files).set("data/study.json", text("{}\n"));
    writeFileSync(path, repacked(changed));
    expect(spawnSync("python3", [script, path], { encoding: "utf8" }).stdout).toContain("data/study.json");
  });

  test("keeps a signature, which is held against a key", async () => {
    const keys = makeKeys();
    const signature = text(JSON.stringify(signText(recordText(record), keys.privateKey)));
    const signed = (await dossierOf(record, signature)).bytes;
    expect(await verify(signed, keys.publicKey)).toMatchObject({ outcome: "bits" });
    expect(await verify(signed, makeKeys().publicKey)).toMatchObject({ outcome: "refused" });
    expect(await verify(bytes, keys.publicKey)).toMatchObject({
      outcome: "refused",
      reasons: [expect.stringContaining("no signature")],
    });
  });
});

describe("what was done to a dossier is found", () => {
  test("any byte of any file altered", () => {
    fc.assert(
      fc.property(fc.nat(), fc.nat(), fc.integer({ min: 1, max: 255 }), (which, where, by) => {
        const [path, content] = [...files][which % files.size]!;
        const altered = Uint8Array.from(content);
        altered[where % altered.length]! ^= by;
        expect(bagProblems(new Map(files).set(path, altered)).length).toBeGreaterThan(0);
      }),
      { seed: 1, numRuns: 300 },
    );
  });

  test("any byte of the packed file altered: refused, found, or of no file", () => {
    const same = (found: Files): boolean =>
      found.size === files.size &&
      [...files].every(([path, content]) => Buffer.from(content).equals(Buffer.from(found.get(path) ?? [])));
    fc.assert(
      fc.property(fc.nat(), fc.integer({ min: 1, max: 255 }), (where, by) => {
        const altered = Uint8Array.from(bytes);
        altered[where % altered.length]! ^= by;
        let found: Files;
        try {
          found = unpackBag(altered, "d.zip");
        } catch {
          return;
        }
        expect(same(found) || bagProblems(found).length > 0).toBe(true);
      }),
      { seed: 2, numRuns: 300 },
    );
  });

  test("any file left out, and one added anywhere", () => {
    for (const path of files.keys()) {
      const without = new Map(files);
      without.delete(path);
      expect(bagProblems(without).length, path).toBeGreaterThan(0);
    }
    for (const path of ["data/more.txt", "data/evidence/more.csv", "more.txt", "data/a%0Ab"])
      expect(bagProblems(new Map(files).set(path, text("more"))), path).toEqual([
        expect.objectContaining({ path, found: "a file that was added" }),
        // The sum of the payload is another too.
        ...(path.startsWith("data/") ? [expect.objectContaining({ path: "bag-info.txt" })] : []),
      ]);
  });

  test.each<[string, (payload: Map<string, Uint8Array>) => void, RegExp]>([
    [
      "a study that is not the record's",
      (payload) => payload.set("study.json", text("{}\n")),
      /not the record's study/,
    ],
    ["a report that is not the record's", (payload) => payload.set("report-de.html", text("<p>Validated")), /report/],
    ["other words on verifying", (payload) => payload.set("how-to-verify.txt", text("Trust me.")), /verifying/],
    ["no report", (payload) => payload.delete("report-en.html"), /report-en\.html is missing/],
    ["a file that no dossier has", (payload) => payload.set("more.txt", text("more")), /more\.txt is no part/],
    [
      "another log under the digest of the first",
      (payload) =>
        payload.set(
          [...payload.keys()].find((path) => path.startsWith("evidence/"))!,
          text("t,x\n"),
        ),
      /not the file that the study names/,
    ],
    ["a description of another record", (payload) => payload.set("dossier.json", text("{}")), /does not describe/],
    ["a record that is none", (payload) => payload.set("record.json", text("{}")), /not a record/],
    ["a signature that is none", (payload) => payload.set("record.json.sig", text("no JSON")), /JSON/],
  ])("with digests made anew: %s", async (_what, change, reason) => {
    const { outcome, reasons } = await verify(rebagged(change));
    expect(outcome).toBe("refused");
    expect(reasons.join("\n")).toMatch(reason);
  });

  test("a report by another build is not compared, and the dossier is not called proved", async () => {
    const { outcome, notes } = await verify(
      rebagged((payload) => {
        payload.set("report-de.html", text("<p>Validated"));
        const described = JSON.parse(new TextDecoder().decode(payload.get("dossier.json"))) as { software: object };
        payload.set("dossier.json", text(JSON.stringify({ ...described, software: { version: "9.9.9" } })));
      }),
    );
    expect(outcome).toBe("agrees");
    expect(notes.join("\n")).toContain("were not compared");
  });

  test("a figure altered, sealed anew, with reports and digests made anew, does not repeat", async () => {
    const forged = JSON.parse(recordText(record)) as { measurands: { y: { linear: { estimate: number } } } };
    forged.measurands.y.linear.estimate += 1e-6;
    const sealed = { ...forged, seal: sealOf(forged as never) } as unknown as SealedRecord;
    const { outcome, differences } = await verify((await dossierOf(sealed)).bytes);
    expect(outcome).toBe("refused");
    expect(differences[0]).toMatchObject({ place: "measurands.y.linear.estimate" });
  });
});

describe("a file that is no dossier", () => {
  const packed = (entries: Record<string, Uint8Array>): Uint8Array => zipSync(entries);
  test.each<[string, () => Uint8Array, RegExp]>([
    ["nothing", () => new Uint8Array(), /no ZIP file/],
    ["text", () => text("PK\u0003\u0004 is how it begins"), /no ZIP file/],
    ["cut off", () => bytes.slice(0, bytes.length - 30), /no ZIP file/],
    ["a path that leads out", () => packed({ "d/../../etc/passwd": text("x") }), /a path in it/],
    ["an absolute path", () => packed({ "/etc/passwd": text("x") }), /a path in it/],
    ["a path of another system", () => packed({ "d\\..\\x": text("x") }), /a path in it/],
    ["a drive", () => packed({ "d/C:x": text("x") }), /a path in it/],
    ["two folders", () => packed({ "a/bagit.txt": text("x"), "b/bagit.txt": text("x") }), /below the one folder/],
    ["files without a folder", () => packed({ "bagit.txt": text("x") }), /a path in it/],
    [
      "too many files",
      () => packed(Object.fromEntries(Array.from({ length: 2001 }, (_, i) => [`d/${i}`, text("")]))),
      /2001 files/,
    ],
  ])("%s", async (_what, made, reason) => {
    const { outcome, reasons } = await verify(made());
    expect(outcome).toBe("refused");
    expect(reasons.join("\n")).toMatch(reason);
  });

  test("one that unpacks beyond measure, whatever it states", () => {
    const bomb = packed({ "d/a": new Uint8Array(600_000), "d/b": new Uint8Array(600_000) });
    expect(bomb.length).toBeLessThan(2000);
    expect(() => unpackBag(bomb, "d.zip", 1_000_000)).toThrow(/unpacked, which is the most/);
    // A size stated as 1 byte is not believed.
    const lying = Buffer.from(bomb);
    lying.writeUInt32LE(1, lying.lastIndexOf("PK\u0001\u0002") + 24);
    expect(() => unpackBag(lying, "d.zip")).toThrow(/not a dossier/);
  });
});
