// One result to report, the same in page, report and terminal.
import pico from "picocolors";
import { expect, test } from "vitest";
import { certificateStatement } from "../../../viewer/present/certificate-statement.ts";
import { de } from "../../../viewer/present/messages/de/index.ts";
import { labelText } from "../../../viewer/present/pictures/label.ts";
import { numbersWith } from "../../../viewer/present/numbers.ts";
import { readable } from "../../../viewer/present/readable.ts";
import { ENGLISH } from "../../../viewer/present/statement.ts";
import { toReport } from "../../../viewer/present/to-report.ts";
import { summaryOf } from "../../../viewer/terminal/summary.ts";

import { runExample } from "../../read-example.ts";

const GERMAN = { ...ENGLISH, messages: de, numbers: numbersWith(",", "; ", " bis ") };

test.each([
  {
    id: "verdicts/kept",
    kind: "linear",
    says: /^e = \(−0\.0091 ± 0\.0099\) °C\. The number after ± is the expanded uncertainty U = k u\(e\) with the coverage factor k = 2\.00; the coverage probability is approximately 95\.45 %\.$/,
    headline: "e = (−0.0091 ± 0.0099) °C (k = 2.00, ν_eff",
  },
  {
    id: "verdicts/another-factor",
    kind: "linear",
    // U = 1.75·0.0362 °C = 0.0634 °C, by hand.
    says: /^e = \(−0\.049 ± 0\.06[34]\) °C\. The number after ± .* Its coverage factor k = 1\.7\d follows from the distribution of the result/,
    headline: "e = (−0.049 ± 0.06",
  },
  {
    id: "verdicts/curvature",
    kind: "monteCarlo",
    says: /^F lies in the interval from 42 to 12\d min with a coverage probability of 95 %, determined by propagation of distributions/,
    headline: "F from 42 to 12",
  },
  {
    id: "verdicts/few-readings",
    kind: "monteCarlo",
    // A t with two degrees of freedom has no standard deviation.
    says: /^e lies in the interval from −0\.04\d to 0\.01\d °C with a coverage probability of 95\.45 %, determined by propagation of distributions \(JCGM 101:2008\)\.$/,
    headline: "°C (p = 95.45 %, Monte Carlo)",
  },
])("$id", ({ id, kind, says, headline }) => {
  const record = runExample(id, { trials: 20_000 });
  const [measurand] = Object.values(record.measurands);
  const shown = readable(measurand!);
  expect(toReport(shown).kind).toBe(kind);
  expect(labelText(certificateStatement(shown, record, ENGLISH)).replaceAll("\u00a0", " ")).toMatch(says);
  expect(labelText(certificateStatement(shown, record, GERMAN))).toMatch(/Überdeckungswahrscheinlichkeit/);
  const text = summaryOf(record, null, pico.createColors(false), 100).replaceAll("\u00a0", " ");
  expect(text).toContain(headline);
});

test("another factor gives an expanded uncertainty of its own", () => {
  const { measurands } = runExample("verdicts/another-factor", { trials: 20_000 });
  const [measurand] = Object.values(measurands);
  const found = toReport(measurand!);
  if (found.kind !== "linear") throw new Error(`got ${found.kind}; expected linear`);
  expect(found.fitted).toBe(true);
  expect(found.expandedUncertainty).toBe(found.coverageFactor * measurand!.linear.standardUncertainty);
});

const { explanation, ...rest } = Object.values(runExample("verdicts/kept", { trials: 10_000 }).measurands)[0]!;
const withAction = (action: string): typeof rest & { explanation: typeof explanation } => ({
  ...rest,
  explanation: {
    ...explanation!,
    recommendation: {
      ...explanation!.recommendation,
      action: action as "keep",
      factor: action === "keep-with-factor" ? 1.8 : null,
    },
  },
});

test.each([
  { action: "keep", kind: "linear" },
  { action: "keep-with-factor", kind: "linear" },
  { action: "add-second-order", kind: "monteCarlo" },
  { action: "report-monte-carlo", kind: "monteCarlo" },
  { action: "gather-readings", kind: "monteCarlo" },
  { action: "know-better", kind: "monteCarlo" },
  { action: "draw-more", kind: "monteCarlo" },
  { action: "state-doubtful-limits", kind: "open" },
  { action: "state-deviation", kind: "open" },
])("$action: $kind", ({ action, kind }) => {
  expect(toReport(withAction(action)).kind).toBe(kind);
});

test("without an explanation the verdict decides, and a result that does not vary is none", () => {
  const bare = { ...rest, explanation: null };
  expect(toReport(bare).kind).toBe("linear");
  expect(toReport({ ...bare, validation: { ...bare.validation, validated: false } }).kind).toBe("monteCarlo");
  expect(toReport({ ...bare, validation: { ...bare.validation, nothingVaries: true } }).kind).toBe("open");
});
