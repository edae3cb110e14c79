// trialband report as a person types it, and its document in a browser.
import { USUAL_DEFAULTS } from "../../../server/store/laboratory.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { reportCommand } from "../../../server/cli/report.ts";
import { repeatCommand } from "../../../server/report/document.ts";
import { Fault, FAULTS } from "../../../server/errors.ts";
import { recordText, sealRecord, type SealedRecord } from "../../../server/record/seal.ts";
import { verifyRecord } from "../../../server/verify/verify.ts";
import { findChromium } from "../../../server/report/chromium.ts";
import { openDocument } from "../../../server/record/open.ts";
import { violationsOn } from "../page/axe.ts";
import { newPage, skipBrowser } from "../page/chromium.ts";
import { filedExample } from "./report-records.ts";
import { LONG } from "../../setup/long.ts";

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "trialband-report-test-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

const record = (): SealedRecord => filedExample("harrowfen/steriliser-134");

function file(name: string, content: string): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

async function faultOf(work: Promise<unknown>): Promise<Fault> {
  const found = await work.then(
    () => undefined,
    (error: unknown) => error,
  );
  expect(found).toBeInstanceOf(Fault);
  return found as Fault;
}

describe("writing", () => {
  test("--out writes the HTML in the language asked for", async () => {
    const path = file("record.json", recordText(record()));
    const out = join(folder, "report.html");
    await reportCommand(path, { out, language: "de" });
    const document = readFileSync(out, "utf8");
    expect(document).toContain('<html lang="de">');
    expect(document).toContain("npx trialband verify record.json");
  });

  test("without a language it has that of the laboratory, where its store is", async () => {
    const path = file("laboratory.json", recordText(record()));
    const out = join(folder, "laboratory.html");
    const store = join(folder, "store");
    await reportCommand(path, { out, store });
    expect(readFileSync(out, "utf8")).toContain('<html lang="en">');
    const opened = openStore({ folder: store, warn: () => undefined });
    opened.desk.setLaboratory({ ...USUAL_DEFAULTS, language: "de" }, null, null);
    opened.close();
    await reportCommand(path, { out, store });
    expect(readFileSync(out, "utf8")).toContain('<html lang="de">');
    await reportCommand(path, { out, store, language: "en" });
    expect(readFileSync(out, "utf8")).toContain('<html lang="en">');
  });

  test("a typed equation is set as mathematics, with its text for those who cannot see it", async () => {
    const path = file("typed.json", recordText(filedExample("equation/transmitter-72")));
    const out = join(folder, "typed.html");
    await reportCommand(path, { out, language: "de" });
    const document = readFileSync(out, "utf8");
    expect(document.match(/<math /g)).toHaveLength(2);
    expect(document).toContain('alttext="e = t_X − (t_S + δt_cal + δt_ax)"');
    expect(document).toContain("<mfrac>");
    // No text for programs beside it.
    expect(document).not.toContain("quantities");
  });

  test("the command printed verifies the record: all figures reproduce exactly", async () => {
    // The command is `trialband verify`, which is this function behind a file.
    const { outcome, reasons } = await verifyRecord(recordText(record()), "record.json");
    expect(reasons).toEqual([]);
    expect(outcome).toBe("bits");
  });

  test.each([
    ["record.json", "npx trialband verify record.json"],
    ["my record.json", "npx trialband verify 'my record.json'"],
    ["it's; rm -rf $HOME.json", String.raw`npx trialband verify 'it'\''s; rm -rf $HOME.json'`],
    ["--help", "npx trialband verify ./--help"],
  ])("the command for a file called %s", (name, command) => {
    expect(repeatCommand(record(), name)).toBe(command);
  });

  test("a record that carries a model of its own says so in the command", () => {
    const { provenance: _provenance, seal: _seal, ...run } = record();
    const own = sealRecord(run, { digest: "0".repeat(64), source: "export default {}" });
    expect(repeatCommand(own, "r.json")).toBe("npx trialband verify --trust-model r.json");
  });
});

describe("refusing", () => {
  const changed = (change: (copy: Record<string, unknown> & SealedRecord) => void): string => {
    const copy = JSON.parse(recordText(record())) as Record<string, unknown> & SealedRecord;
    change(copy);
    return JSON.stringify(copy);
  };
  type Loose = { [key: string]: Loose } & Loose[];
  const set = (path: string, value: unknown): string =>
    changed((copy) => {
      const keys = path.split(".");
      const last = keys.pop()!;
      const at = keys.reduce<Loose>((inner, key) => inner[key]!, copy as unknown as Loose) as unknown as Record<
        string,
        unknown
      >;
      at[last] = value;
    });

  test.each<[string, string, string, RegExp]>([
    ["not JSON", "{", "not-json", /is not JSON/],
    ["a list", "[]", "bad-input", /format: got nothing; expected the format of a record/],
    ["null", "null", "bad-input", /format/],
    ["a study", JSON.stringify({ title: "t", model: "additive", inputs: {} }), "bad-input", /format: got nothing/],
    [
      "another format",
      JSON.stringify({ format: "trialband-record/99" }),
      "bad-input",
      /format: got "trialband-record\/99"/,
    ],
    ["an empty record of the first format", JSON.stringify({ format: "trialband-record/1" }), "bad-input", /expected /],
  ])("%s", async (_, text, code, message) => {
    const fault = await faultOf(reportCommand(file("bad.json", text), { language: "en" }));
    expect(fault.code).toBe(code);
    expect(FAULTS[fault.code].exit).toBe(2);
    const words = [
      fault.message,
      ...fault.problems.map(({ place, value, accepted }) => `${place}: got ${value}; expected ${accepted}`),
    ].join("\n");
    expect(words).toMatch(message);
  });

  test.each<[string, unknown, string]>([
    ["measurands.error.linear.estimate", "0", "a finite number"],
    ["measurands.error.linear.interval", [1], "a list"],
    ["measurands.error.validation.validated", "yes", "true or false"],
    ["inputs.bathAxial.unit", 3, "a text"],
    ["inputs.bathAxial.evaluation", "C", '"A" or "B"'],
    ["trials.stop", "tired", '"fixed" or "settled" or "limit"'],
    ["cautions", "none", "a list"],
  ])("%s = %j is told with place, value and what is expected", (path, value, accepted) => {
    const parsed = JSON.parse(set(path, value)) as unknown;
    const fault = (() => {
      try {
        openDocument(parsed, "r.json");
      } catch (error) {
        return error as Fault;
      }
      return undefined;
    })();
    expect(fault).toBeInstanceOf(Fault);
    const problem = fault!.problems[0]!;
    expect(problem.place.startsWith(path)).toBe(true);
    expect(problem.accepted).toContain(accepted);
  });

  test("a contribution of an input that is not there", () => {
    const parsed = JSON.parse(set("measurands.error.linear.contributions.0.input", "ghost")) as unknown;
    expect(() => openDocument(parsed, "r.json")).toThrowError(
      expect.objectContaining({
        problems: [expect.objectContaining({ place: "measurands.error.linear.contributions", value: '"ghost"' })],
      }) as Error,
    );
  });

  test("a figure altered after sealing: no report is made", async () => {
    const estimate = record().measurands["error"]!.linear.estimate;
    const path = file("altered.json", set("measurands.error.linear.estimate", estimate + 1e-3));
    const fault = await faultOf(reportCommand(path, { language: "en" }));
    expect(fault.message).toMatch(/altered after it was sealed/);
    expect(fault.problems.map(({ place }) => place)).toEqual(["seal.results", "seal.record"]);
  });

  test("files that are not there, and places that cannot be written to", async () => {
    expect((await faultOf(reportCommand(join(folder, "none.json"), { language: "en" }))).code).toBe("no-such-file");
    const path = file("record.json", recordText(record()));
    expect((await faultOf(reportCommand(path, { out: join(folder, "none/report.html"), language: "en" }))).code).toBe(
      "cannot-write",
    );
  });

  test("no Chromium: the words say what to do", () => {
    expect(() => findChromium({ TRIALBAND_CHROMIUM: join(folder, "no-browser") })).toThrow(
      /TRIALBAND_CHROMIUM names .*no-browser/,
    );
  });
});

describe.skipIf(skipBrowser)("in a browser", () => {
  test.each([
    ["harrowfen/pasteuriser-72", "en"],
    ["verdicts/curvature", "de"],
    ["published/polar-010-correlated", "en"],
  ] as const)(
    "%s in %s: valid structure, nothing asked of a network, no fault that axe-core finds",
    LONG,
    async (id, language) => {
      const path = file("record.json", recordText(filedExample(id)));
      const out = join(folder, "report.html");
      await reportCommand(path, { out, language });
      const page = await newPage({ viewport: { width: 1000, height: 1200 } });
      try {
        const requests: string[] = [];
        const complaints: string[] = [];
        page.on("request", (request) => requests.push(request.url()));
        page.on("pageerror", (error) => complaints.push(String(error)));
        page.on("console", (message) => complaints.push(message.text()));
        await page.goto(pathToFileURL(out).href);
        expect(requests).toEqual([pathToFileURL(out).href]);
        expect(complaints).toEqual([]);
        // A parser that had to mend the text would leave elements elsewhere than they were written.
        const structure = await page.evaluate(() => ({
          quirks: document.compatMode,
          headings: [...document.querySelectorAll("h1, h2, h3")].map(({ tagName }) => tagName).join(" "),
          ragged: [...document.querySelectorAll("table:has(thead)")].filter((table) => {
            const rows = [...table.querySelectorAll("tr")];
            return new Set(rows.map((row) => [...row.cells].reduce((sum, { colSpan }) => sum + colSpan, 0))).size !== 1;
          }).length,
          outside: document.querySelectorAll("body > :not(header):not(main)").length,
          wide: document.documentElement.scrollWidth > document.documentElement.clientWidth,
        }));
        expect(structure).toMatchObject({ quirks: "CSS1Compat", ragged: 0, outside: 0, wide: false });
        expect(structure.headings.startsWith("H1 H2")).toBe(true);
        expect(await violationsOn(page)).toEqual([]);
      } finally {
        await page.close();
      }
    },
  );

  test.each([
    [undefined, 595, 842],
    ["Letter", 612, 792],
  ] as const)("--pdf prints pages of paper %s, tagged", LONG, async (paper, width, height) => {
    const path = file("record.json", recordText(record()));
    const pdf = join(folder, "report.pdf");
    // The set-up names the browser in TRIALBAND_CHROMIUM.
    await reportCommand(path, { pdf, language: "en", ...(paper === undefined ? {} : { paper }) });
    const bytes = readFileSync(pdf, "latin1");
    expect(bytes.startsWith("%PDF-")).toBe(true);
    const pages = [...bytes.matchAll(/\/Type\s*\/Page\b(?!s)/g)].length;
    // A report of fifteen inputs has its result, inputs, budget, picture, validation, settling and provenance.
    expect(pages).toBeGreaterThanOrEqual(5);
    expect(pages).toBeLessThanOrEqual(12);
    const [, w, h] = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/.exec(bytes)!;
    // ISO 216 A4: 210 mm × 297 mm; Letter: 8.5 in × 11 in; in points, to a point.
    expect(Math.abs(Number(w) - width)).toBeLessThan(1);
    expect(Math.abs(Number(h) - height)).toBeLessThan(1);
    expect(bytes).toContain("/MarkInfo");
    expect(existsSync(pdf)).toBe(true);
  });
});
