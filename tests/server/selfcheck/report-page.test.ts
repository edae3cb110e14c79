import { describe, expect, test } from "vitest";
import type { CheckLine } from "../../../viewer/api/selfcheck.ts";
import { reportPage } from "../../../server/selfcheck/report-page.ts";
import { selfcheckCommand } from "../../../viewer/present/selfcheck.ts";
import type { SelfcheckReport } from "../../../server/selfcheck/selfcheck.ts";

const line = (changes: Partial<CheckLine> = {}): CheckLine => ({
  group: "g",
  what: "mass: u",
  source: "JCGM 101:2008, 9.3",
  published: 0.0754,
  obtained: 0.07548,
  unit: "mg",
  tolerance: { limit: 0.001, basis: "half a printed digit" },
  passed: true,
  shown: { published: "0.0754", obtained: "0.07548", tolerance: "± 0.001" },
  ...changes,
});

const report = (lines: readonly CheckLine[], changes: Partial<SelfcheckReport> = {}): SelfcheckReport => ({
  format: "trialband-selfcheck/1",
  startedAt: "2026-03-02T09:30:00.000Z",
  seconds: 8.2,
  scope: "quick",
  seed: null,
  installation: {
    version: "0.1.0",
    folder: "/opt/trialband",
    commit: "abc+",
    engineDigest: "e".repeat(64),
    modelsDigest: "m".repeat(64),
    runtime: "Node.js v20",
    system: "linux",
    processor: "two cores",
    workers: 2,
  },
  passed: lines.filter(({ passed }) => passed).length,
  failed: lines.filter(({ passed }) => !passed).length,
  groups: [{ id: "g", title: "A group", lines }],
  ...changes,
});

describe("the report for the quality file", () => {
  test("names date, version, commit, digests, runtime, system, scope and the command, and has every line", () => {
    const page = reportPage(report([line(), line({ what: "mass: estimate" })]));
    for (const part of [
      "2026-03-02 09:30 UTC",
      "0.1.0",
      "/opt/trialband",
      "abc+",
      "e".repeat(64),
      "m".repeat(64),
      "Node.js v20",
      "linux",
      "two cores",
      "200 000 trials",
      "npx trialband selfcheck --quick",
      "2 passed, 0 failed",
      "mass: u",
      "mass: estimate",
      "0.0754 mg",
      "± 0.001",
      "half a printed digit",
      "Source: JCGM 101:2008, 9.3",
    ]) {
      expect(page).toContain(part);
    }
    expect(page.match(/<tr data-passed="true">/g)).toHaveLength(2);
    expect(page).not.toContain("What failed");
  });

  test("what failed comes first, in words and not by colour", () => {
    const page = reportPage(report([line(), line({ what: "wrong one", passed: false })]));
    expect(page).toContain("1 passed, 1 failed");
    expect(page.indexOf("What failed")).toBeLessThan(page.indexOf("A group</h2>"));
    // Once above, once in its group.
    expect(page.match(/FAIL\s*<\/td>\s*<th scope="row">wrong one/g)).toHaveLength(2);
  });

  test("takes nothing from elsewhere", () => {
    expect(reportPage(report([line()]))).not.toMatch(/<script|<link|src=|url\(|https?:|@import/);
  });

  test("is escaped wherever a text comes in", () => {
    const evil = `<script>alert("x")</script>'&\u0000`;
    const page = reportPage({
      ...report(
        [
          line({
            what: evil,
            source: evil,
            unit: evil,
            tolerance: { limit: null, basis: evil },
            shown: { published: evil, obtained: evil, tolerance: evil },
          }),
        ],
        { seed: evil },
      ),
      groups: [{ id: "g", title: evil, lines: [line({ what: evil, source: evil })] }],
      installation: {
        version: evil,
        folder: evil,
        commit: evil,
        engineDigest: evil,
        modelsDigest: evil,
        runtime: evil,
        system: evil,
        processor: evil,
        workers: 1,
      },
    });
    expect(page).not.toMatch(/<script|\u0000/);
    expect(page).toContain("&lt;script&gt;alert(&quot;x&quot;)&lt;/script&gt;&#39;&amp;");
  });

  test("the command to repeat quotes a seed for a shell", () => {
    expect(selfcheckCommand({ scope: "full", seed: null })).toBe("npx trialband selfcheck");
    expect(selfcheckCommand({ scope: "quick", seed: "it's" })).toBe(
      "npx trialband selfcheck --quick --seed 'it'\\''s'",
    );
  });
});
