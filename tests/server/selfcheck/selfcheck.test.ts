// The selfcheck's own figures are its sources; here it is checked that it is whole, and that it finds what is wrong.
import { afterEach, describe, expect, test, vi } from "vitest";
import type { Pool } from "../../../server/runs/pool/pool.ts";
import type { CheckEvent, CheckLine, Finding } from "../../../viewer/api/selfcheck.ts";
import type { RunRecord } from "../../../engine/index.ts";
import type { Check, CheckContext, CheckGroup } from "../../../server/selfcheck/check.ts";
import { fixedPoints, FIXED_POINTS } from "../../../server/selfcheck/groups/its-90.ts";
import { philoxAnswers, PHILOX } from "../../../server/selfcheck/groups/generator.ts";
import { checkGroups } from "../../../server/selfcheck/groups/index.ts";
import { jcgm101 } from "../../../server/selfcheck/groups/jcgm-101/index.ts";
import { RESISTANCES, table } from "../../../server/selfcheck/groups/iec-60751.ts";
import { TWISTER, twisterWords } from "../../../server/selfcheck/groups/second-generator.ts";
import { KNOWN_SUMS, verdictLines, verdicts } from "../../../server/selfcheck/groups/verdicts.ts";
import { between, near, printed, same } from "../../../server/selfcheck/judge.ts";
import { selfcheck } from "../../../server/selfcheck/selfcheck.ts";
import { LONG } from "../../setup/long.ts";

/** What the workers' draws are multiplied by: 1 but where a test wants them wrong. */
let scale = 1;
vi.mock("../../../server/runs/pool/pool.ts", async (original) => {
  const real = await original<typeof import("../../../server/runs/pool/pool.ts")>();
  return {
    ...real,
    openPool: async (workers: number): Promise<Pool> => {
      const pool = await real.openPool(workers);
      return {
        ...pool,
        async draw(task, signal) {
          const batches = await pool.draw(task, signal);
          if (scale !== 1)
            for (const batch of batches)
              for (const { values } of batch.measurands) values.forEach((y, i) => (values[i] = scale * y));
          return batches;
        },
      };
    },
  };
});
afterEach(() => {
  scale = 1;
});

const quick = { quick: true, workers: 2, signal: undefined, seed: undefined };
const group = (lines: Check["lines"]): CheckGroup => ({
  id: "one",
  title: "One group",
  checks: () => [{ title: "one check", source: "a source", lines }],
});
const failedOf = (groups: readonly { readonly lines: readonly CheckLine[] }[]): CheckLine[] =>
  groups.flatMap(({ lines }) => lines.filter(({ passed }) => !passed));

describe("on this installation", () => {
  test("quickly, every line passes; each has its source and its tolerance", { timeout: 900_000 }, async () => {
    const events: CheckEvent[] = [];
    const report = await selfcheck(checkGroups, { ...quick, onEvent: (event) => events.push(event) });
    expect(failedOf(report.groups)).toEqual([]);
    expect(report).toMatchObject({ format: "trialband-selfcheck/1", scope: "quick", seed: null, failed: 0 });
    const lines = report.groups.flatMap((found) => found.lines);
    expect(lines).toHaveLength(report.passed);
    expect(report.groups.map(({ id }) => id)).toEqual(checkGroups.map(({ id }) => id));
    for (const line of lines) {
      // A document with its edition or place in it, or how it was computed.
      expect(line.source, line.what).toMatch(
        /\d{4}|^computed independently: |^common practice$|^definition|PractRand 0\.95|ISO\/IEC|distribution function|r of independent columns|nothing published|^follows from/,
      );
      expect(line.tolerance.basis, line.what).not.toBe("");
      if (line.tolerance.limit !== null) expect(line.tolerance.limit, line.what).toBeGreaterThan(0);
      expect(Object.values(line.shown).join(" "), line.what).not.toMatch(/NaN|undefined|null|Infinity/);
    }
    // Told as it went on: the same lines, and progress to the end.
    expect(events.flatMap((event) => (event.type === "line" ? [event.line] : []))).toEqual(lines);
    const steps = events.filter((event) => event.type === "step");
    expect(steps.at(-1)).toMatchObject({ done: steps.length - 1, all: steps.length - 1 });
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
  });

  test("in full there is more of everything that quick leaves out", () => {
    for (const { id, checks } of checkGroups)
      expect(checks(false).length, id).toBeGreaterThanOrEqual(checks(true).length);
    expect(jcgm101.checks(false).map(({ title }) => title)).toEqual(
      expect.arrayContaining([expect.stringContaining("adaptive procedure")]),
    );
    expect(table(RESISTANCES, 10)).toHaveLength(106);
  });
});

describe("a fault is found", () => {
  // Each has one wrong figure: a misprint that is in circulation, or one digit of a known answer.
  test.each<[string, () => readonly Finding[], RegExp]>([
    [
      "W_r of mercury",
      () => fixedPoints(FIXED_POINTS.map(([name, T, Wr]) => [name, T, Wr === "0.84414211" ? "0.84414212" : Wr])),
      /234\.3156 K/,
    ],
    [
      "R at −160 °C, as a copy misprints it",
      () =>
        table(
          RESISTANCES.map((R) => (R === "35.54" ? "35.34" : R)),
          10,
        ),
      /−160 °C/,
    ],
    [
      "R at 200 °C by the curve of 1983",
      () =>
        table(
          RESISTANCES.map((R) => (R === "175.86" ? "175.84" : R)),
          10,
        ),
      /200 °C/,
    ],
    [
      "one digit of Philox",
      () => philoxAnswers(PHILOX.map(([counter, key, words]) => [counter, key, words.replace("9b00dbd8", "9b00dbd9")])),
      /counter 00000000/,
    ],
    ["a word of MT19937", () => twisterWords({ ...TWISTER, tenThousandth: TWISTER.tenThousandth + 1 }), /10 000th/],
  ])("a wrong published figure: %s", async (_, lines, what) => {
    const { groups, failed } = await selfcheck([group(lines)], quick);
    expect(failed).toBe(1);
    expect(failedOf(groups)[0]!.what).toMatch(what);
  });

  test("workers that draw 2 % too wide", { timeout: 300_000 }, async () => {
    const additive: CheckGroup = {
      ...jcgm101,
      checks: (fast) => jcgm101.checks(fast).filter(({ title }) => title.startsWith("9.2, additive-one")),
    };
    expect((await selfcheck([additive], quick)).failed).toBe(0);
    scale = 1.02;
    const { groups } = await selfcheck([additive], quick);
    expect(failedOf(groups).map(({ what }) => what)).toContain("additive-one-dominant: 95 % interval, Monte Carlo");
  });

  test(
    "verdicts near the limit: a verdict where the trials do not decide, and workers that draw a tenth too wide",
    { ...LONG, timeout: 300_000 },
    async () => {
      const undecided = { ...verdicts, checks: (fast: boolean) => verdicts.checks(fast).slice(2) };
      const records: RunRecord[] = [];
      const recording = {
        ...undecided,
        checks: (fast: boolean) =>
          undecided.checks(fast).map((check) => ({
            ...check,
            lines: (context: CheckContext) =>
              check.lines({
                ...context,
                run: async (study) => {
                  records.push(await context.run(study));
                  return records.at(-1)!;
                },
              }),
          })),
      };
      expect((await selfcheck([recording], quick)).failed).toBe(0);
      expect(records).toHaveLength(2);
      // The fault that once was: every run that had settled passed for decided.
      const firm = records.map((record) => structuredClone(record) as RunRecord);
      for (const { measurands } of firm) Object.assign(measurands["result"]!.validation, { firm: true });
      const { groups } = await selfcheck([group(() => verdictLines(KNOWN_SUMS[2]!, firm))], quick);
      expect(failedOf(groups).map(({ what }) => what)).toEqual([
        "half-width 1.63145801508, run 1: verdict",
        "half-width 1.63145801508, run 2: verdict",
      ]);
      scale = 1.1;
      const within = { ...verdicts, checks: (fast: boolean) => verdicts.checks(fast).slice(0, 1) };
      expect(failedOf((await selfcheck([within], quick)).groups).map(({ what }) => what)).toContain(
        "half-width 1.2, run 1: verdict",
      );
    },
  );

  test("a check that cannot be carried out is a failed line, and the next are still made", async () => {
    const broken = group(() => {
      throw new Error("no such thing");
    });
    const report = await selfcheck([broken, group(() => [same("fine", 1, 1)])], quick);
    expect(report).toMatchObject({ passed: 1, failed: 1 });
    expect(failedOf(report.groups)[0]).toMatchObject({
      what: "one check",
      source: "a source",
      obtained: "no such thing",
    });
  });

  test("one that is cancelled ends at once", async () => {
    const abort = new AbortController();
    const stopping = group(() => {
      abort.abort();
      return [];
    });
    await expect(
      selfcheck([stopping, group(() => expect.unreachable())], { ...quick, signal: abort.signal }),
    ).rejects.toMatchObject({
      code: "cancelled",
    });
  });
});

describe("judging", () => {
  const passed = (finding: Finding): boolean => finding.passed;

  test("a printed figure may lie half of its last digit away, and no more", () => {
    expect([2.005, 1.995, 2.00501, 1.9949].map((x) => passed(printed("u", "2.00", x)))).toEqual([
      true,
      true,
      false,
      false,
    ]);
    expect([32.5, 31.49].map((x) => passed(printed("u", "32", x)))).toEqual([true, false]);
    expect(passed(printed("u", ["-3.92", "3.92"], [-3.919, 3.93]))).toBe(false);
    expect(printed("u", "2.00", 1.99993).shown).toEqual({
      published: "2.00",
      obtained: "1.9999",
      tolerance: "± 0.005",
    });
    expect(printed("u", "-0.930", -0.9304).shown).toMatchObject({ published: "−0.930", obtained: "−0.93040" });
  });

  test("what does not exist passes nothing", () => {
    for (const nothing of [null, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(near("u", 1, nothing, 1e9, "any")).toMatchObject({ passed: false, obtained: "none" });
      expect(passed(near("ends", [1, 2], [1, nothing], 1e9, "any"))).toBe(false);
    }
    expect(passed(near("ends", [1, 2], [1], 1, "any"))).toBe(false);
    expect(passed(between("count", 10, Number.NaN, [5, 20], "any"))).toBe(false);
  });

  test("words must be the same", () => {
    expect(passed(same("verdict", "validated", "validated"))).toBe(true);
    expect(passed(same("verdict", "validated", "not validated"))).toBe(false);
    const digest = "0123456789abcdef".repeat(4);
    expect(same("digest", digest, digest)).toMatchObject({
      published: digest,
      shown: { published: "0123456789abcdef…" },
    });
  });

  test("a small or large limit is set as a power of ten", () => {
    expect(near("x", 0, 0, 1e-10, "any").shown.tolerance).toBe("± 1·10⁻¹⁰");
    expect(near("x", 0, 0, 0.02714, "any").shown.tolerance).toBe("± 0.0271");
    expect(near("x", 0, 0, 5, "any").shown.tolerance).toBe("± 5");
    expect(near("x", 0, 0, 120, "any").shown.tolerance).toBe("± 120");
  });
});
