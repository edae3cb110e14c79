// Every item of ISO/IEC 17025:2017, 7.8.2 and 7.8.4, with where it stands on a calibration certificate.
import { describe, expect, test } from "vitest";
import { CERTIFICATE_FIELDS } from "../../../models/index.ts";
import { languages } from "../../../viewer/present/messages/index.ts";
import { certificateHtml } from "../../../viewer/report/certificate-html.ts";
import {
  certificateFrom,
  documentWith,
  FIELDS,
  ITEM,
  REFERENCE,
} from "../../server/export/certificate/made-certificate.ts";

/** Elements that answer to a clause, by its name, as plain text. */
function clausesOf(html: string): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  for (const match of html.matchAll(/<(\w+)[^<>]*data-clause="([^"]+)"[^<>]*>/g)) {
    const [opening, tag, clause] = match as unknown as [string, string, string];
    let depth = 1;
    const tags = new RegExp(`</?${tag}\\b[^>]*>`, "g");
    tags.lastIndex = match.index + opening.length;
    let end = tags.lastIndex;
    while (depth > 0) {
      const next = tags.exec(html)!;
      depth += next[0].startsWith("</") ? -1 : 1;
      end = next.index;
    }
    const text = html
      .slice(match.index + opening.length, end)
      .replaceAll(/<[^>]*>/g, " ")
      .replaceAll(/\s+/g, " ");
    found.set(clause, `${found.get(clause) ?? ""} ${text}`);
  }
  return found;
}

const full = certificateFrom(documentWith());
const html = certificateHtml(full, REFERENCE, languages.en);
const clauses = clausesOf(html);

describe("ISO/IEC 17025:2017, 7.8.2 and 7.8.4: each item stands where its clause is named", () => {
  test.each<[string, string, readonly string[]]>([
    ["7.8.2.1 a", "title", ["Calibration certificate"]],
    ["7.8.2.1 b", "name and address of the laboratory", [FIELDS.laboratory.name, ...FIELDS.laboratory.address, "GB"]],
    ["7.8.2.1 c", "location of performance", ["premises of the customer: cold store of dock 4"]],
    ["7.8.2.1 d", "unique identification, and the end", [ITEM.number, "End of certificate HCR-2026-041"]],
    ["7.8.2.1 e", "customer", [FIELDS.customer.name, ...FIELDS.customer.address, FIELDS.customer.email]],
    ["7.8.2.1 f", "method", [FIELDS.method.name, ...FIELDS.method.norms]],
    [
      "7.8.2.1 g",
      "item and its condition",
      ["platinum thermometer Pt100", "HF-021", ITEM.manufacturer, ITEM.condition],
    ],
    ["7.8.2.1 h", "receipt", [ITEM.received]],
    ["7.8.2.1 i", "days of performance", ["2026-03-02 to 2026-03-04"]],
    ["7.8.2.1 j", "day of issue", [FIELDS.issued]],
    ["7.8.2.1 k", "sampling", [FIELDS.sampling]],
    ["7.8.2.1 l", "results relate to the item alone", ["relate only to the calibrated item"]],
    // Errors and U of the five baths: `joint-calibration.json`, to two digits of U.
    ["7.8.2.1 m", "results with units", ["e / °C", "R / Ω", "−0.072", "−0.146", "−0.210", "−0.274", "−0.405"]],
    ["7.8.2.1 n", "additions, deviations, exclusions", [FIELDS.method.deviations]],
    ["7.8.2.1 o", "who authorises", [FIELDS.authorised.name, FIELDS.authorised.role, "Signature"]],
    ["7.8.2.1 p", "external providers", [FIELDS.external]],
    ["7.8.2.1 note", "reproduced in full", ["only be reproduced in full"]],
    ["7.8.2.2", "information from the customer", [FIELDS.fromCustomer, "does not answer for it"]],
    ["7.8.4.1 a", "uncertainty", ["expanded uncertainty U", "95"]],
    ["7.8.4.1 b", "conditions", ["22.1 to 23.4", "41"]],
    ["7.8.4.1 c", "traceability", [FIELDS.traceability, "HR-02, HCR-2025-118, Harrowfen Standards Room, 2025-09-15"]],
    ["7.8.4.1 d", "before and after an adjustment", [ITEM.adjustment, "−0.171", "0.030"]],
    ["7.8.4.1 e", "conformity", ["IEC 60751:2022, class A", "accepted"]],
    ["7.8.6.1", "decision rule", ["guard band w = 1 U at both ends"]],
    ["7.8.4.1 f", "opinions", [FIELDS.opinions]],
    ["7.8.4.3", "an interval only by agreement", ["agreement: 2027-03-01"]],
  ])("%s, %s", (clause, _, texts) => {
    const text = (clauses.get(clause) ?? "").replaceAll("\u00a0", " ");
    for (const part of texts) expect(text).toContain(part);
  });

  test("no clause is named that the table does not have", () => {
    expect(
      [...clauses.keys()].filter((clause) => !/^7\.8\.(2\.1 ([a-p]|note)|2\.2|4\.1 [a-f]|4\.3|6\.1)$/.test(clause)),
    ).toEqual([]);
  });

  test("every page carries the number, and its place among the pages (7.8.2.1 d)", () => {
    expect(html).toMatch(/@top-left \{ content: "[^"]*HCR\\2d 2026\\2d 041/);
    expect(html).toContain("counter(page)");
    expect(html).toContain("counter(pages)");
  });

  test("without the customer's agreement no interval is recommended (7.8.4.3)", () => {
    const { nextCalibration: _, ...fields } = FIELDS;
    const other = certificateHtml(certificateFrom(documentWith({ certificate: fields })), REFERENCE, languages.en);
    expect(clausesOf(other).has("7.8.4.3")).toBe(false);
  });
});

describe("a draft", () => {
  test("with every field it is none", () => {
    expect(full.draft).toBe(false);
    expect(html).not.toMatch(/Draft|This is a draft/);
  });

  test("without any, all required fields are named once at its head and where they would stand", () => {
    const bare = certificateFrom(documentWith({ certificate: undefined, laboratory: undefined }, null));
    expect(bare.draft).toBe(true);
    // The five baths state the day of calibration nowhere, and a description of the instrument.
    expect(bare.lacking.fields.map(({ field }) => field)).toEqual(
      CERTIFICATE_FIELDS.filter((field) => field !== "description"),
    );
    const text = certificateHtml(bare, null, languages.en);
    expect(text).toContain("Draft of a calibration certificate");
    expect(text).toContain('content: "Draft"');
    for (const { field } of bare.lacking.fields)
      expect(text).toContain(languages.en.calibrationCertificate.lacks[field]);
    expect(text).not.toMatch(/undefined|null|NaN|\{\w+\}/);
  });

  test.each(Object.keys(ITEM).filter((key) => ["number", "manufacturer", "condition", "adjustment"].includes(key)))(
    "without %s alone",
    (key) => {
      const item = Object.fromEntries(Object.entries(ITEM).filter(([name]) => name !== key));
      const { draft, lacking } = certificateFrom(documentWith({}, item));
      expect(draft).toBe(true);
      expect(lacking.fields).toEqual([{ field: key, place: `instruments.0.certificate.${key}` }]);
    },
  );

  test("where a point has no result that can be stated", () => {
    const { draft, lacking } = certificateFrom(documentWith(), (record) => ({
      ...record,
      measurands: {
        ...record.measurands,
        error_p3: {
          ...record.measurands["error_p3"]!,
          explanation: { recommendation: { action: "state-deviation", factor: null } },
        } as unknown as (typeof record.measurands)[string],
      },
    }));
    expect(draft).toBe(true);
    expect(lacking).toEqual({ fields: [], points: [3] });
  });
});

test("in German every word of the program is German; texts of the laboratory stay as written", () => {
  const german = certificateHtml(full, REFERENCE, languages.de);
  expect(german).toContain('<html lang="de">');
  expect(german).toContain("Kalibrierschein");
  expect(german).toContain("−0,072");
  expect(german).toContain(FIELDS.traceability);
  expect(german).not.toMatch(/Calibration certificate|Authorised|Metrological|Statements|Coefficients|\bNaN|undefined/);
});

test("text of the laboratory cannot become markup", () => {
  const fields = { ...FIELDS, opinions: '<script>alert("x")</script>' };
  const hostile = certificateHtml(certificateFrom(documentWith({ certificate: fields })), REFERENCE, languages.en);
  expect(hostile).not.toContain("<script");
  expect(hostile).toContain("&lt;script&gt;");
});
