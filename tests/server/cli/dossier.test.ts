// trialband dossier and trialband verify on it, as a person types them.
import { copyFileSync, mkdtempSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { recordText } from "../../../server/record/seal.ts";
import { recordWithEvidence } from "../dossier/dossiers.ts";
import { trialband } from "./trialband.ts";

let folder: string;
let record: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "trialband-dossier-command-"));
  record = join(folder, "record.json");
  writeFileSync(record, recordText(await recordWithEvidence()));
  mkdirSync(join(folder, "logs"));
  // Under another name: the digest tells it.
  const log = new URL("../../../examples/survey/pasteuriser-72.csv", import.meta.url).pathname;
  copyFileSync(log, join(folder, "logs", "renamed.csv"));
});
afterAll(() => rmSync(folder, { recursive: true }));

test("is made, verified, and refused once it is altered", async () => {
  const out = join(folder, "dossier.zip");
  const made = await trialband("dossier", record, "--evidence", join(folder, "logs"), "--out", out);
  expect(made).toMatchObject({ status: 0 });
  expect(made.stdout).toMatch(/no signature, reports in English and German, 1 of 2 files of evidence/);
  expect(made.stdout).toMatch(/Not found: lost\.csv, SHA-256 0{64}/);
  const verified = await trialband("verify", out);
  expect(verified).toMatchObject({ status: 0 });
  expect(verified.stdout).toContain("reproduces exactly, bit for bit");
  expect(verified.stdout.replace(/\s+/g, " ")).toContain("lost.csv (SHA-256 0");
  const bytes = readFileSync(out);
  writeFileSync(out, Buffer.concat([bytes.subarray(0, 2000), Buffer.from("x"), bytes.subarray(2001)]));
  expect(await trialband("verify", out)).toMatchObject({ status: 1 });
});

test("refuses what it cannot use, and writes nothing then", async () => {
  const out = join(folder, "none.zip");
  expect(await trialband("dossier", join(folder, "none.json"), "--out", out)).toMatchObject({ status: 2 });
  const folderless = await trialband("dossier", record, "--evidence", join(folder, "nowhere"), "--out", out);
  expect(folderless).toMatchObject({ status: 2 });
  expect(folderless.stderr).toContain("nowhere cannot be read");
  expect(() => readFileSync(out)).toThrow();
});
