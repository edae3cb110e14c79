// @module-tag long
// The command as a person meets it, in an installation that was tampered with. Needs dist/ (npm test builds it).
import { spawn } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { SelfcheckReport } from "../../../server/selfcheck/selfcheck.ts";

const root = new URL("../../..", import.meta.url).pathname;
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "trialband-selfcheck-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

function trialband(
  installation: string,
  ...args: string[]
): Promise<{ status: number | null; stdout: string; stderr: string }> {
  const { FORCE_COLOR: _, ...env } = process.env;
  const child = spawn(process.execPath, [join(installation, "bin.mjs"), ...args], {
    cwd: folder,
    env: { ...env, NO_COLOR: "1" },
  });
  let [stdout, stderr] = ["", ""];
  child.stdout.on("data", (part: Buffer) => (stdout += part.toString("utf8")));
  child.stderr.on("data", (part: Buffer) => (stderr += part.toString("utf8")));
  return new Promise((resolve) => child.on("close", (status) => resolve({ status, stdout, stderr })));
}

/** A copy of this installation in which one input of a published example was changed. */
function tampered(): string {
  const copy = join(folder, "installation");
  for (const part of ["bin.mjs", "package.json", "dist", "examples/published"])
    cpSync(join(root, part), join(copy, part), { recursive: true });
  symlinkSync(join(root, "node_modules"), join(copy, "node_modules"));
  const file = join(copy, "examples/published/mass-calibration.json");
  writeFileSync(file, readFileSync(file, "utf8").replace('"standardUncertainty": 0.05', '"standardUncertainty": 0.06'));
  return copy;
}

test("an installation that was tampered with fails, says where, and files it", { timeout: 900_000 }, async () => {
  const { status, stdout, stderr } = await trialband(
    tampered(),
    "selfcheck",
    "--quick",
    "--out",
    "report.html",
    "--out",
    "report.json",
  );
  expect(stderr).toBe("");
  expect(status).toBe(1);
  expect(stdout).toContain("Quick: 200 000 trials");
  expect(stdout).toMatch(/✗ FAIL mass: u, linear +0\.0539 mg +0\.063246 mg/);
  expect(stdout).toMatch(/✓ {6}end gauge: ν_eff/);
  expect(stdout).toMatch(/✗ \d+ passed, \d+ failed\n/);
  expect(stdout).not.toMatch(/\x1b|NaN|undefined/);
  const report = JSON.parse(readFileSync(join(folder, "report.json"), "utf8")) as SelfcheckReport;
  const failed = report.groups.flatMap(({ lines }) => lines.filter(({ passed }) => !passed));
  expect(failed).toHaveLength(report.failed);
  expect(failed.every(({ what }) => what.startsWith("mass: "))).toBe(true);
  const page = readFileSync(join(folder, "report.html"), "utf8");
  expect(page).toContain(`${report.passed} passed, ${report.failed} failed`);
  expect(page).toContain("What failed");
});
