// @module-tag long
import { describe, expect, test } from "vitest";
import { skipBrowser } from "../chromium.ts";
import { example, forms } from "./forms-under-test.ts";

describe.skipIf(skipBrowser)("forms of evidence, whole walks", () => {
  const it = forms();

  test("readings are typed by the keyboard alone, and run in a study", async () => {
    const { page, tabTo, type } = it;
    await page.goto(`${it.serving.url}#readings`);
    await page.locator("#setup-title").waitFor();
    await it.fits();
    await tabTo("setup-title");
    await type("Probe 7 at 37 °C");
    await tabTo("setup-thermometer-1-unit");
    await page.keyboard.press("End");
    await page.locator("#setup-thermometer-1-r0").waitFor();
    await tabTo("setup-thermometer-1-r0");
    await type("100");
    await tabTo("setup-rows-0-at-0");
    // In turn: reference, probe, probe, reference, three times; a row each.
    const turns = [0, 1, 2].flatMap((k) => [`37,00${k}`, `114.37${k}1`, `114.37${k}3`, `37.00${k}2`]);
    for (const [k, figure] of turns.entries()) {
      await tabTo(`setup-rows-${k}-at-${k % 4 === 0 || k % 4 === 3 ? 0 : 1}`, 8);
      await type(figure);
    }
    await page.locator("#setup-cycles-0-rows tbody tr").nth(2).waitFor();
    await tabTo("setup-into-study", 80);
    await page.keyboard.type("Pasteuriser probe HF-034");
    await page.locator("#setup-into-probeResistance").waitFor();
    await tabTo("setup-into-run");
    await page.keyboard.press("Enter");
    await page.locator("#print").waitFor();
    await page.locator("#verdict-sentence").waitFor();
    const { record } = await it.serving.runs.read(it.serving.runs.list()[0]!.id);
    const stated = record!.study.inputs["probeResistance"] as unknown as { values: number[]; evidence: object };
    expect(stated.values).toHaveLength(3);
    expect(stated.evidence).toMatchObject({ files: [{ name: "Probe 7 at 37 C.json" }] });
  });

  test("an immersion check is pasted; what is wrong is said beside its cell", async () => {
    const { page } = it;
    await page.goto(`${it.serving.url}#immersion`);
    await page.locator("#setup-planned").fill("320");
    await page.locator("#setup-title").fill("Immersion of probe 7");
    await page.locator("#setup-limit").fill("4");
    const { depths } = (await example("survey/immersion-134.json")) as { depths: { depth: number; reading: number }[] };
    const cells = depths.map(({ depth, reading }) => `${depth}\t${(134 + reading).toFixed(4).replace(".", ",")}\t134`);
    await it.paste("setup-depths-0-depth", ["depth / mm\tprobe\treference", ...cells].join("\n"));
    // As `trialband immersion` finds it of the same readings.
    await page.locator("#setup-fit", { hasText: "Conduction length 31.3 mm" }).waitFor();
    await page.locator("#setup-depths-1-reading").fill("warm");
    await page.locator("#setup-depths-1-reading-problem", { hasText: "warm" }).waitFor();
    expect(await page.locator("#setup-problems").innerText()).toContain("Row 2, probe");
    await page.locator("#setup-depths-1-reading").fill("133.9642");
    await page.locator("#setup-fit").waitFor();
    await it.looked("immersion");
    await it.fits();
    await page.locator("#setup-remove").click();
    await page.locator("#setup-undo").click();
    await expect.poll(() => page.locator("#setup-planned").inputValue()).toBe("320");
  });

  test("a certificate runs in a study, with its files behind the inputs; the list has what was kept", async () => {
    const { page } = it;
    await page.goto(`${it.serving.url}#certificate`);
    await page.locator("#setup-open").setInputFiles({
      name: "reference.json",
      mimeType: "application/json",
      buffer: Buffer.from(JSON.stringify(await example("survey/reference-HR-02.json"))),
    });
    await page.locator("#setup-on").fill("2026-03-02");
    await page.locator("#setup-at").fill("72");
    await page.locator("#setup-value").waitFor();
    await page.locator("#setup-into-study").selectOption("harrowfen/pasteuriser-72");
    await page.locator("#setup-into-referenceDrift").waitFor();
    await it.looked("certificate");
    await it.fits();
    await page.locator("#setup-into-run").click();
    await page.locator("#print").waitFor();
    await page.locator("#verdict-sentence").waitFor();
    const { record } = await it.serving.runs.read(it.serving.runs.list()[0]!.id);
    expect(record!.study.inputs["referenceCertificate"]).toMatchObject({
      expandedUncertainty: 0.008,
      evidence: { files: [{ name: "HR-02.json" }] },
    });
    await page.goto(`${it.serving.url}#evidence`);
    await page.locator("#kept-certificate", { hasText: "version 1" }).waitFor();
    await it.looked("evidence");
    await it.fits();
  });

  test("a version is read without being changed, gone on from, and the draft before brought back", async () => {
    const { page, tabTo } = it;
    const title = page.locator("#setup-title");
    await page.goto("about:blank");
    await page.goto(`${it.serving.url}#immersion`);
    await title.waitFor();
    await page.locator("#setup-open").setInputFiles({
      name: "immersion.json",
      mimeType: "application/json",
      buffer: Buffer.from(JSON.stringify(await example("survey/immersion-134.json"))),
    });
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>("#setup-title")!.value !== "");
    const first = await title.inputValue();
    await page.locator("#setup-evaluate").click();
    await page.locator("#setup-version-1").waitFor();
    await title.fill("Another name");
    await page.locator("#setup-evaluate").click();
    await page.locator("#setup-version-2", { hasText: "Another name" }).waitFor();

    await tabTo("setup-version-1", 300);
    await page.keyboard.press("Enter");
    await page.locator("#setup-looked", { hasText: "Version 1, as it was saved on" }).waitFor();
    expect([await title.inputValue(), await title.isDisabled()]).toEqual([first, true]);
    expect(await page.locator("#setup-evaluate").isVisible()).toBe(false);
    expect(new URL(page.url()).hash).toMatch(/&version=1$/);
    await it.fits();
    const drafts = (await (await fetch(`${it.serving.url}api/evidence`)).json()) as { id: string; title: string }[];
    expect(drafts[0]!.title).toBe("Another name");

    await page.locator("#setup-take-version").focus();
    await page.keyboard.press("Enter");
    await page.locator("#setup-status", { hasText: "The draft is now that of version 1." }).waitFor();
    expect([await title.inputValue(), await title.isDisabled()]).toEqual([first, false]);
    await tabTo("setup-undo-version", 300);
    await page.keyboard.press("Enter");
    await page.waitForFunction(
      () => document.querySelector<HTMLInputElement>("#setup-title")!.value === "Another name",
    );
    await page.locator("#setup-kept", { hasText: "Draft kept." }).waitFor();
  });
});
