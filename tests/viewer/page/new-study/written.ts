import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { expect } from "vitest";
import type { RunRecord } from "../../../../engine/index.ts";
import { serve, type Serving } from "../../../../server/serve.ts";
import { BUILT_PAGE, newPage } from "../chromium.ts";

/** The form of a new study over the real server, as a reader at the keyboard has it. */
export interface Written {
  page: Page;
  serving: Serving;
  /** Keys pressed, each letter one. */
  keys: number;
  press(...keys: string[]): Promise<void>;
  type(text: string): Promise<void>;
  /** Tab until the element has the focus. */
  tabTo(id: string, most?: number): Promise<void>;
  focused(): Promise<string>;
  /** Stops the server and starts it again over the same store and at the same address. */
  restart(): Promise<void>;
  /** The record of the latest run. */
  record(): Promise<RunRecord>;
  close(): Promise<void>;
}

export async function openWritten(): Promise<Written> {
  const folder = await mkdtemp(join(tmpdir(), "trialband-form-"));
  const start = (port: number): Promise<Serving> =>
    serve({ host: "127.0.0.1", port, workers: 2, store: folder, warn: () => undefined, page: BUILT_PAGE });
  const page = await newPage({ viewport: { width: 1440, height: 900 } });
  const complaints: string[] = [];
  page.on("pageerror", (error) => complaints.push(String(error)));
  const it: Written = {
    page,
    serving: await start(0),
    keys: 0,
    press: async (...keys) => {
      for (const key of keys) {
        it.keys += 1;
        await page.keyboard.press(key);
      }
    },
    type: async (text) => {
      it.keys += [...text].length;
      await page.keyboard.type(text);
    },
    focused: () => page.evaluate(() => document.activeElement?.id ?? ""),
    tabTo: async (id, most = 60) => {
      for (let i = 0; i < most && (await it.focused()) !== id; i += 1) await it.press("Tab");
      expect(await it.focused()).toBe(id);
    },
    restart: async () => {
      const { port } = new URL(it.serving.url);
      await it.serving.close();
      it.serving = await start(Number(port));
    },
    record: async () => (await it.serving.runs.read(it.serving.runs.list()[0]!.id)).record!,
    close: async () => {
      await page.close();
      await it.serving.close();
      await rm(folder, { recursive: true });
      expect(complaints).toEqual([]);
    },
  };
  return it;
}
