// @module-tag long
// The six walks of a laboratory's own work, by the keyboard alone, with the keys, clicks and seconds that each takes. What a
// practised hand needs is told from the keystroke-level model (Card, Moran, Newell, Communications of the ACM 23 (1980) 396):
// 0.28 s a key for an average typist, 1.1 s a click, 1.35 s of thought for each field that is filled in or chosen.
import type { Page } from "playwright-core";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { TEN_BUDGETS } from "../../server/intake/ten-budgets.ts";
import { fileChooserByEnter, skipBrowser } from "./chromium.ts";
import { walk } from "./import/walk.ts";
import { openWritten, type Written } from "./new-study/written.ts";
import { COMBINED, HOW, NINE } from "./new-study/nine-terms.ts";

/** What a practised hand may take, in seconds. */
const FIVE_MINUTES = 300;
const [KEY, CLICK, FIELD] = [0.28, 1.1, 1.35];

interface Counts {
  keys: number;
  clicks: number;
  fields: number;
}

/** Counts what reaches the page: keys without those that only modify others, clicks, and fields whose content changes. */
async function counting(page: Page): Promise<Counts> {
  const counts: Counts = { keys: 0, clicks: 0, fields: 0 };
  await page.exposeBinding("counted", (_source, what: keyof Counts) => {
    counts[what] += 1;
  });
  await page.addInitScript(() => {
    const tell = (what: string): void => void (window as unknown as { counted(what: string): void }).counted(what);
    let field: EventTarget | null = null;
    addEventListener("keydown", ({ key }) => ["Control", "Shift", "Alt"].includes(key) || tell("keys"), true);
    addEventListener("pointerdown", () => tell("clicks"), true);
    addEventListener("focusin", () => (field = null), true);
    addEventListener(
      "input",
      ({ target }) => {
        if (target !== field) tell("fields");
        field = target;
      },
      true,
    );
  });
  return counts;
}

describe.skipIf(skipBrowser)("a laboratory's own work, by the keyboard alone", () => {
  let it: Written;
  let counts: Counts;
  let began: number;
  beforeEach(async () => {
    it = await openWritten();
    counts = await counting(it.page);
  });
  afterEach(() => it.close());

  const begin = async (hash: string, there: string): Promise<void> => {
    await it.page.goto(`${it.serving.url}${hash}`);
    await it.page.locator(there).waitFor();
    Object.assign(counts, { keys: 0, clicks: 0, fields: 0 });
    began = Date.now();
  };
  /** Tells what the walk took; a hand that knows the page needs less than five minutes. */
  const told = (name: string, times = 1): void => {
    const { keys, clicks, fields } = counts;
    const hand = (keys * KEY + clicks * CLICK + fields * FIELD) / times;
    const seconds = (Date.now() - began) / 1000;
    console.log(
      `walk ${name}: ${keys} keys, ${clicks} clicks, ${fields} fields; the script took ${seconds.toFixed(0)} s, a practised hand takes ${hand.toFixed(0)} s${times > 1 ? ` each of ${times}` : ""}`,
    );
    expect(clicks).toBe(0);
    expect(hand).toBeLessThan(FIVE_MINUTES);
  };
  const title = async (words: string): Promise<void> => {
    await it.tabTo("in-title");
    await it.type(words);
  };
  const run = async (): Promise<void> => {
    await it.page.locator("#ready").waitFor();
    await it.press("Control+Enter");
    await it.page.locator("#print").waitFor();
  };

  const runNine = async (): Promise<void> => {
    await run();
    const { measurands, study } = await it.record();
    expect(measurands["result"]!.linear.standardUncertainty).toBeCloseTo(COMBINED, 12);
    expect(measurands["result"]!.linear.estimate).toBeCloseTo(-0.006, 12);
    expect(Object.keys(study.inputs)).toEqual(NINE.map(([symbol]) => symbol));
    expect(study.trials).toBe("adaptive");
  };

  test("(a) nine rows are typed, with the server restarted in the middle, and run", async () => {
    await begin("#new", "#cell-row-1-symbol");
    await title("Comparison at 37 °C");
    await it.tabTo("cell-row-1-symbol");
    for (const [i, [symbol, quantity, value, how, figure, k, ν]] of NINE.entries()) {
      for (const text of [symbol, quantity, value, i === 0 ? "°C" : "", i === 0 ? "d" : "", how, figure]) {
        await it.type(text);
        await it.press("Tab");
      }
      if (k !== "") {
        await it.type(k);
        await it.press("Tab");
      }
      await it.type(ν);
      if (i < NINE.length - 1) await it.press("Enter");
      if (i !== 4) continue;
      await it.restart();
      await it.page.reload();
      await it.page.locator("#cell-row-6-symbol").waitFor();
      expect(await it.page.locator("#cell-row-5-first").inputValue()).toBe("0,004");
      await it.page.locator("#cell-row-6-symbol").focus();
    }
    expect(await it.page.locator("#to-do").innerText()).toContain(
      "1 thing is still to be stated or mended: unit of the result.",
    );
    await it.tabTo("cell-result-1-unit");
    await it.type("°C");
    await it.press("Tab");
    await it.type("d");
    await runNine();
    told("(a)");
  });

  test("(b) nine rows are pasted from a spreadsheet and run", async () => {
    const rows = NINE.map(([symbol, quantity, value, how, figure, , ν]) =>
      [symbol, quantity, value, HOW[how], figure, ν || "∞", "1", "survey"].join("\t"),
    );
    const head =
      "Symbol\tQuantity\tEstimate / °C\tDistribution\tHalf-width\tDegrees of freedom\tSensitivity coefficient\tSource";
    await it.page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    await begin("#new", "#cell-row-1-symbol");
    await it.page.evaluate((text) => navigator.clipboard.writeText(text), [head, ...rows, ""].join("\r\n"));
    await title("Comparison at 37 °C");
    await it.tabTo("cell-row-1-symbol");
    await it.press("Control+V");
    await it.page.locator(".entry-said", { hasText: "9 rows pasted" }).waitFor();
    expect(await it.page.locator("#cell-row-1-second").inputValue()).toBe("2");
    await it.tabTo("cell-row-1-ofTemperature");
    await it.type("d");
    await it.press("Control+Shift+D");
    await it.page.locator("#to-results-result-1-unit").waitFor();
    await it.tabTo("to-results-result-1-unit", 200);
    await it.press("Enter");
    await it.type("°C");
    await it.press("Tab");
    await it.type("d");
    await runNine();
    told("(b)");
  });

  test("(c) ten spreadsheets are imported, and what is asked is answered", async () => {
    await begin("#import", "#import-file");
    for (const budget of TEN_BUDGETS) await walk({ page: it.page, serving: () => it.serving }, budget);
    told("(c)", TEN_BUDGETS.length);
  });

  test("(d) an equation with a platinum conversion is typed and run", async () => {
    await begin("#new", "#cell-row-1-symbol");
    await title("Platinum probe in the bath");
    await it.tabTo("in-model");
    await it.type("Typed");
    const field = "in-parameters-equation";
    await it.page.locator(`#${field}`).waitFor();
    await it.tabTo(field);
    await it.press("Control+A");
    await it.type("e = t(R_X + d_R, R_0) - (t_S + d_ax)");
    await it.press("Escape");
    await it.page.locator("#cell-d_ax-how").waitFor();
    for (const [name, value, how, figure, unit, kind] of [
      ["R_X", "127.7", "standard", "0.002", "Ω", ""],
      ["d_R", "0", "rect", "0.003", "Ω", ""],
      ["R_0", "100", "exact", "", "Ω", ""],
      ["t_S", "71.8", "standard", "0.004", "°C", "t"],
      ["d_ax", "0", "rect", "0.01", "°C", "d"],
    ] as const) {
      await it.tabTo(`cell-${name}-value`, 200);
      for (const text of [value, unit]) {
        await it.press("Control+A");
        await it.type(text);
        await it.press("Tab");
      }
      if (kind !== "") await it.type(kind);
      await it.tabTo(`cell-${name}-how`);
      await it.type(how);
      if (figure === "") continue;
      await it.press("Tab");
      await it.type(figure);
    }
    await it.tabTo("cell-e-unit", 40);
    await it.type("°C");
    await it.press("Tab");
    await it.type("d");
    await run();
    const { measurands } = await it.record();
    // R(72 °C) of a Pt100 by IEC 60751 is 127.7 Ω within 0.08 Ω, of which 0.38 Ω make 1 °C.
    expect(Math.abs(measurands["e"]!.linear.estimate)).toBeLessThan(0.4);
    told("(d)");
  });

  test("(e) a bare log with tables of its steps and positions becomes a survey, and goes into a study of one's own", async () => {
    const term = (symbol: string) => ({ symbol, meaning: symbol, unit: "mK", difference: true });
    const started = await fetch(`${it.serving.url}api/runs`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({
        study: {
          title: "Our bath, by our own names",
          model: "additive",
          parameters: {
            measurand: { symbol: "e", meaning: "error", unit: "mK", difference: true },
            coefficients: { uniformity: 1, across: 1, drift: 1 },
            terms: { uniformity: term("vertical"), across: term("across"), drift: term("drift") },
          },
          inputs: Object.fromEntries(
            ["uniformity", "across", "drift"].map((name) => [
              name,
              { distribution: "rectangular", estimate: 0, halfWidth: 20 },
            ]),
          ),
          trials: 10_000,
          seed: "1",
        },
      }),
    });
    expect(started.status).toBe(202);
    const template = async (name: string) => ({
      name,
      mimeType: "text/csv",
      buffer: Buffer.from(await (await fetch(`${it.serving.url}api/templates/${name}`)).arrayBuffer()),
    });
    await begin("#survey-setup", "#setup-title");
    await it.tabTo("setup-title");
    await it.type("Our bath at 37 °C");
    await it.tabTo("setup-files");
    await (
      await fileChooserByEnter(it.page)
    ).setFiles(await Promise.all(["survey-steps.csv", "survey-log.csv", "survey-positions.csv"].map(template)));
    await it.page.locator("#setup-plan-said", { hasText: "4 positions were taken" }).waitFor();
    await it.page.locator(".setup-log").waitFor();
    expect(await it.page.locator("#setup-step-6-to").inputValue()).toBe("2026-01-12 09:51:40");
    expect(await it.page.locator("#setup-step-6-at-1").inputValue()).toBe("far");
    expect(await it.page.locator("#setup-position-2-direction").inputValue()).toBe("towards the stirrer");
    await it.tabTo("setup-setTemperature", 200);
    await it.type("37");
    await it.tabTo("setup-calibrationMinutes", 40);
    await it.type("20");
    // What is set up outlives a stop of the server.
    await it.page.locator("#setup-kept", { hasText: "Draft kept." }).waitFor();
    await it.restart();
    await it.tabTo("setup-evaluate", 60);
    await it.press("Enter");
    await it.page.locator("#survey-into").waitFor();
    await it.tabTo("survey-into", 400);
    await it.type("Our bath, by");
    await it.page.locator("#survey-target-bathAxial").waitFor();
    for (const [quantity, symbol] of [
      ["bathStability", "drift"],
      ["bathAxial", "vert"],
      ["bathRadial", "acr"],
    ] as const) {
      await it.tabTo(`survey-target-${quantity}`, 20);
      await it.type(symbol);
    }
    await it.tabTo("survey-run", 20);
    await it.press("Enter");
    await it.page.locator("#print").waitFor();
    const { study } = await it.record();
    // The template's log was made with 6 mK between 250 mm and 290 mm, and 3 mK and −2 mK to the sides.
    const halfWidth = (name: string): number => (study.inputs[name] as { halfWidth: number }).halfWidth;
    expect(halfWidth("uniformity")).toBeCloseTo(0.006, 3);
    expect(halfWidth("across")).toBeCloseTo(0.003, 3);
    expect(study.inputs["drift"]).toMatchObject({ unit: "K" });
    told("(e)");
  });

  test("(f) a study is edited, run again and compared, and the way back leads to it", async () => {
    await begin("#new", "#cell-row-1-symbol");
    await title("One term");
    await it.tabTo("cell-row-1-symbol");
    for (const text of ["a", "", "0", "mK", "r", "3"]) {
      await it.type(text);
      await it.press("Tab");
    }
    await it.tabTo("cell-result-1-unit");
    await it.type("mK");
    await run();
    Object.assign(counts, { keys: 0, clicks: 0, fields: 0 });
    began = Date.now();
    await it.tabTo("edit-study", 120);
    await it.press("Enter");
    await it.page.locator("[id^=cell-][id$=-first]").first().waitFor();
    await it.tabTo((await it.page.locator("[id^=cell-][id$=-first]").first().getAttribute("id"))!, 120);
    await it.press("Control+A");
    await it.type("4");
    await it.page.locator("#draft-kept", { hasText: "Kept as a draft." }).waitFor();
    await it.restart();
    await run();
    expect(it.serving.runs.list().map(({ studyVersion }) => studyVersion)).toEqual([2, 1]);
    await it.tabTo("own-of-run", 200);
    await it.press("Enter");
    await it.page.locator("#compare-version-2").waitFor();
    await it.tabTo("compare-version-2", 120);
    await it.press("Enter");
    await it.page.locator(".overlay svg").waitFor();
    const sentence = (await it.page.locator(".comparison-view .sentence").innerText()).replaceAll(/\s+/g, " ");
    // 3/√3 mK and 4/√3 mK: JCGM 100, 4.3.7.
    expect(sentence).toContain("goes from 1.73 to 2.31 mK");
    await it.page.goBack();
    await it.page.locator("#compare-version-2").waitFor();
    told("(f)");
  });
});
