// The short form of the campaign: each part at its smallest. npm run campaign runs it for as long as asked. Needs dist/.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { trialband } from "../server/cli/trialband.ts";
import { filesOfSize } from "./hostile-files.ts";
import { parts } from "./parts.ts";

let folder: string;
beforeAll(() => void (folder = mkdtempSync(join(tmpdir(), "trialband-campaign-"))));
afterAll(() => rmSync(folder, { recursive: true }));

test("every part has an option of its own", () => {
  const options = parts.map(({ option }) => option);
  expect(new Set(options).size).toBe(options.length);
});

test.each(filesOfSize(1).map((file) => [file.name, file] as const))("%s is refused in words", async (name, file) => {
  const path = join(folder, name);
  writeFileSync(path, file.content);
  const { status, stdout, stderr } = await trialband(file.command, path);
  expect(stderr).not.toMatch(/call stack|heap|\n\s+at /);
  expect(status, stdout + stderr).toBe(file.command === "verify" ? 1 : 2);
});
