import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** LibreOffice, which opens the workbooks in the tests; `null` where it is not installed, and the tests say so. */
export const SOFFICE: string | null =
  ["soffice", "libreoffice"].find((name) => spawnSync(name, ["--version"]).status === 0) ?? null;

if (SOFFICE === null) console.warn("skipped: LibreOffice (soffice) is not installed, so no workbook is opened in it");

/** Converts files in one start of LibreOffice; every file is found in `to` with the new ending. */
export function convert(files: readonly string[], kind: "xlsx" | "pdf", to: string): void {
  const profile = `-env:UserInstallation=file://${join(to, "profile")}`;
  const done = spawnSync(SOFFICE!, [profile, "--headless", "--convert-to", kind, "--outdir", to, ...files], {
    encoding: "utf8",
  });
  if (done.status !== 0) throw new Error(`LibreOffice failed: ${done.stderr}`);
}

export const written = (path: string, bytes: Uint8Array): string => {
  writeFileSync(path, bytes);
  return path;
};
export const read = (path: string): Buffer => readFileSync(path);
