import { execFile } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { delimiter, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { promisify } from "node:util";
import { Fault } from "../errors.ts";

/** Names under which it is found on the search path. */
const NAMES = [
  "chromium",
  "chromium-browser",
  "google-chrome",
  "google-chrome-stable",
  "microsoft-edge",
  "chrome.exe",
  "msedge.exe",
];
const PLACES = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/snap/bin/chromium",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files\\Chromium\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe",
];
/** Longest that a print may take. */
const PATIENCE = 120_000;

/**
 * An installed Chromium or a browser of its family: the one that `TRIALBAND_CHROMIUM` names, else one on the search path
 * or in a usual place.
 *
 * @throws {Fault} `no-such-file`: none is there, or the named one is not
 */
export function findChromium(environment: NodeJS.ProcessEnv = process.env): string {
  const named = environment["TRIALBAND_CHROMIUM"];
  if (named !== undefined && named !== "") {
    if (existsSync(named)) return named;
    throw new Fault(
      "no-such-file",
      `TRIALBAND_CHROMIUM names ${named}, which does not exist; expected the path of a Chromium.`,
    );
  }
  const onPath = (environment["PATH"] ?? "")
    .split(delimiter)
    .filter((folder) => folder !== "")
    .flatMap((folder) => NAMES.map((name) => join(folder, name)));
  const found = [...onPath, ...PLACES].find((path) => existsSync(path));
  if (found !== undefined) return found;
  throw new Fault(
    "no-such-file",
    "No Chromium was found to print the PDF with. Install one, or name it in TRIALBAND_CHROMIUM; or write the report with --out and print it in any browser.",
  );
}

/**
 * Prints a document to PDF, laid out as its style sheet states; tagged, with an outline.
 *
 * @param document a complete HTML document
 * @param signal ends the browser when nobody waits any more
 * @returns the bytes of the PDF
 * @throws {Fault} `cannot-write`: the browser gave no PDF, with its message
 */
export async function printToPdf(document: string, chromium: string, signal?: AbortSignal): Promise<Uint8Array> {
  const folder = await mkdtemp(join(tmpdir(), "trialband-report-"));
  try {
    const source = join(folder, "report.html");
    const pdf = join(folder, "report.pdf");
    await writeFile(source, document);
    const run = promisify(execFile)(
      chromium,
      [
        "--headless",
        // Chromium refuses its sandbox to root.
        ...(process.getuid?.() === 0 ? ["--no-sandbox"] : []),
        "--disable-gpu",
        "--disable-dev-shm-usage",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        // A profile of its own: one that a running browser holds would only open a window there.
        `--user-data-dir=${resolve(folder, "profile")}`,
        "--no-pdf-header-footer",
        "--generate-pdf-document-outline",
        `--print-to-pdf=${pdf}`,
        pathToFileURL(source).href,
      ],
      { timeout: PATIENCE, ...(signal === undefined ? {} : { signal }) },
    );
    const said = await run.then(
      ({ stderr }) => stderr,
      (error: unknown) => (error instanceof Error ? error.message : String(error)),
    );
    return await readFile(pdf).catch(() => {
      const last = said.trim().split("\n").slice(-3).join(" ");
      throw new Fault("cannot-write", `${chromium} gave no PDF: ${last === "" ? "no message" : last}`);
    });
  } finally {
    // A browser that is still closing may hold its profile a moment longer.
    await rm(folder, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
  }
}
