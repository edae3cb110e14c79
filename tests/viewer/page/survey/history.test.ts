// The history of a survey: its versions' half-widths over time, drawn from the evaluations that the server gives.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { KeptFile, OwnEvidence } from "../../../../viewer/api/evidence.ts";
import { skipBrowser } from "../chromium.ts";
import { example, forms } from "../evidence-forms/forms-under-test.ts";
import { LONG } from "../../../setup/long.ts";

describe.skipIf(skipBrowser)("a survey's history", () => {
  const it = forms();

  test("draws stability and both differences of every version by the date of its log", LONG, async () => {
    const ask = async <T>(path: string, method: string, body: unknown): Promise<T> => {
      const raw = Buffer.isBuffer(body);
      const response = await fetch(`${it.serving.url}api/${path}`, {
        method,
        headers: { "content-type": raw ? "application/octet-stream" : "application/json" },
        body: raw ? new Uint8Array(body) : JSON.stringify(body),
      });
      expect(response.ok, `${path}: ${response.status}`).toBe(true);
      return (await response.json()) as T;
    };
    const document = await example("survey/cold-store-4.json");
    const log = readFileSync(new URL("../../../../examples/survey/cold-store-4.csv", import.meta.url), "utf8");
    const version = async (own: OwnEvidence | null, month: string): Promise<OwnEvidence> => {
      const bytes = Buffer.from(log.replaceAll("02.03.2026", `02.${month}.2026`));
      const { name, sha256 } = await ask<KeptFile>("evidence-files?name=cold-store-4.csv", "POST", bytes);
      const dated = JSON.parse(JSON.stringify(document).replaceAll("2026-03-02", `2026-${month}-02`)) as unknown;
      const content = { document: dated, files: [{ name, sha256 }] };
      const there = own ?? (await ask<OwnEvidence>("evidence", "POST", { kind: "survey", ...content }));
      return ask<OwnEvidence>(`evidence/${there.id}`, "PUT", { ...content, seen: there.draft, save: true });
    };
    let own = await version(null, "03");
    await it.page.goto(`${it.serving.url}#survey-setup=${own.id}`);
    await it.page.locator("#setup-version-1").waitFor();
    // One version is no history.
    expect(await it.page.locator("#survey-history").count()).toBe(0);
    own = await version(own, "04");
    await version(own, "05");
    await it.page.reload();
    await it.page.locator("#survey-history-summary").press("Enter");
    const pictures = it.page.locator("#survey-history svg[role=img]");
    await pictures.nth(2).waitFor();
    expect(await pictures.count()).toBe(3);
    expect(await pictures.first().getAttribute("aria-label")).toBe("stability, half-width of 3 versions over time.");
    // The same readings each time: one height, and the days of the logs below, the oldest to the left.
    const marks = await pictures.first().locator(".trend-mark").all();
    expect(marks.length).toBe(3);
    expect(new Set(await Promise.all(marks.map((mark) => mark.getAttribute("cy")))).size).toBe(1);
    expect(await pictures.first().textContent()).toContain("2026-03-02");
    await it.fits();
  });
});
