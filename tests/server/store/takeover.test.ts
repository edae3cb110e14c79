import { cpSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeEach, describe, expect, test } from "vitest";
import { openStore } from "../../../server/store/open-store.ts";
import { emptyFolder, filedRuns, FOLDER_0_3 } from "./sample.ts";

let folder: string;
beforeEach(() => {
  folder = emptyFolder();
  cpSync(FOLDER_0_3, folder, { recursive: true });
});

describe("a folder of version 0.3", () => {
  test("is taken over at the first start: every run, its record to the byte, its note and its place", () => {
    const said: string[] = [];
    const store = openStore({ folder, warn: (message) => said.push(message) });
    const filed = filedRuns();
    expect(filed).toHaveLength(4);
    for (const { head, body } of filed) {
      const ended = head.state === "finished" || head.state === "cancelled";
      expect(store.head(head.id)).toMatchObject({ ...head, state: ended ? head.state : "waiting" });
      const read = store.read(head.id)!;
      expect(JSON.stringify(read.record)).toBe(JSON.stringify(body.record));
      expect(read.study).toEqual(body.loaded.study);
    }
    const started = store.heads().map(({ startedAt }) => startedAt);
    expect(started).toEqual(started.toSorted().toReversed());
    expect(store.unfinished()).toHaveLength(1);
    expect(store.audit()).toMatchObject({ problems: [], records: 2 });
    expect(said).toEqual([expect.stringMatching(/^4 runs were taken over from .*runs/)]);
    store.close();
  });

  test("is left as it is, and taken over once", () => {
    const names = readdirSync(join(folder, "runs"));
    openStore({ folder }).close();
    const said: string[] = [];
    const store = openStore({ folder, warn: (message) => said.push(message) });
    expect(store.heads()).toHaveLength(4);
    expect(said).toEqual([]);
    store.close();
    for (const name of names)
      expect(readFileSync(join(folder, "runs", name))).toEqual(readFileSync(join(FOLDER_0_3, "runs", name)));
  });

  test("what cannot be read is named and left out; the rest is taken", () => {
    const runs = join(folder, "runs");
    const [whole] = readdirSync(runs).map((name) => readFileSync(join(runs, name), "utf8"));
    writeFileSync(join(runs, "cut.json"), whole!.slice(0, 500));
    writeFileSync(join(runs, "copy.json"), whole!);
    writeFileSync(join(runs, "empty.json"), "null");
    writeFileSync(join(runs, "recordless.json"), whole!.replace(/"body":.*/su, '"body":{"loaded":{"study":{}}}}'));
    writeFileSync(join(runs, ".part.json"), "{");
    const said: string[] = [];
    const store = openStore({ folder, warn: (message) => said.push(message) });
    expect(store.heads()).toHaveLength(4);
    expect(said.filter((message) => message.includes("left out"))).toHaveLength(4);
    expect(said).toContainEqual(
      expect.stringMatching(/cut\.json is left out: cut\.json is not JSON \(line 2, column \d+\)/),
    );
    store.close();
  });
});
