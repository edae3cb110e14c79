import { appendFileSync, mkdtempSync, renameSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { watchedLogs, type WatchedLogs } from "../../../server/watch/watched-logs.ts";
import type { WatchEvent, WatchState } from "../../../viewer/api/watched-logs.ts";

let folder: string;
let log: string;
let watched: WatchedLogs;
let heard: { id: string; event: WatchEvent }[];
const told = (id: string, event: WatchEvent): void => void heard.push({ id, event });
const latest = (): WatchState => heard.at(-1)!.event as WatchState;
const row = (minute: number, value: number): string => `${60 * minute},${value.toFixed(4)}\n`;
const steady = (from: number, to: number): string =>
  Array.from({ length: to - from }, (_, i) => row(from + i, 37 + 0.001 * ((from + i) % 2))).join("");

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "trialband-watched-"));
  log = join(folder, "logger.csv");
  heard = [];
  watched = watchedLogs([log], 10);
});
afterEach(() => {
  watched.close();
  rmSync(folder, { recursive: true });
});

describe("a log that the server was started to follow", () => {
  test("is told as it grows: the window, the criterion, what is still wanting; a half-written line waits", async () => {
    writeFileSync(log, `time / s,HS-1 / °C\n${steady(0, 20)}1200,3`);
    expect(watched.list()).toEqual([{ id: "1", name: "logger.csv" }]);
    const stop = watched.follow("1", { criterion: 2, time: 25 }, null, told);
    await expect.poll(() => heard.length).toBe(1);
    expect(latest()).toMatchObject({ type: "state", there: true, window: 1800 });
    // 20 readings from 0 min to 19 min; one stands for its minute, so 29 min make a window of 30 min.
    expect(latest().thermometers[0]!.state).toMatchObject({ samples: 20, criterion: { met: false, remaining: 600 } });
    expect(latest().outlines[0]!.times).toHaveLength(20);
    appendFileSync(log, `7.0000\n${steady(21, 31)}`);
    await expect.poll(() => latest().thermometers[0]!.state.samples).toBe(31);
    // The window is whole at 29 min.
    expect(latest().thermometers[0]!.state.criterion).toMatchObject({ met: true, since: 29 * 60 });
    stop();
  });

  test("goes on after a pause, and tells who has the latest event nothing until the next", async () => {
    writeFileSync(log, `time / s,HS-1 / °C\n${steady(0, 5)}`);
    watched.follow("1", {}, null, told);
    await expect.poll(() => heard.length).toBe(1);
    const { id } = heard[0]!;
    watched.follow("1", {}, id, (next, event) => told(`again ${next}`, event));
    const other = watched.follow("1", {}, "00000000-1", (next, event) => told(`stale ${next}`, event));
    other();
    await expect.poll(() => heard.map((one) => one.id)).toEqual([id, `stale ${id}`]);
    appendFileSync(log, steady(5, 6));
    await expect.poll(() => heard.some((one) => one.id.startsWith("again"))).toBe(true);
    expect(latest().thermometers[0]!.state.samples).toBe(6);
  });

  test("that is not there, vanishes, is cut or replaced is told and followed on", async () => {
    watched.follow("1", {}, null, told);
    await expect.poll(() => heard.length).toBe(1);
    expect(latest()).toMatchObject({ there: false, thermometers: [] });
    writeFileSync(log, `time / s,HS-1 / °C\n${steady(0, 9)}`);
    await expect.poll(() => latest().thermometers[0]?.state.samples).toBe(9);
    renameSync(log, join(folder, "old.csv"));
    await expect.poll(() => latest().there).toBe(false);
    // What was read stays.
    expect(latest().thermometers[0]!.state.samples).toBe(9);
    writeFileSync(log, `time / s,HS-1 / °C\n${steady(0, 4)}`);
    await expect.poll(() => latest().thermometers[0]?.state.samples).toBe(4);
    expect(latest().notes.join()).toContain("cut or replaced");
    expect(latest().outlines[0]!.times).toHaveLength(4);
    truncateSync(log, 0);
    await expect.poll(() => latest().thermometers).toEqual([]);
  });

  test("that leaves something open says what is to be stated, and goes on once it is", async () => {
    writeFileSync(log, "time / s,HS-1\n0,100.1\n60,100.2\n120,100.3\n");
    const stop = watched.follow("1", { unit: "Ω" }, null, told);
    await expect.poll(() => heard.length).toBe(1);
    expect(heard[0]!.event).toMatchObject({ type: "failed", name: "logger.csv" });
    expect(JSON.stringify(heard[0]!.event)).not.toContain(folder);
    stop();
    watched.follow("1", { unit: "Ω", r0: 100 }, null, told);
    await expect.poll(() => latest().type).toBe("state");
    // IEC 60751:2022, table 1: 100.39 Ω at 1 °C, so 100.3 Ω lies below it.
    expect(latest().thermometers[0]!.state.value).toBeCloseTo(0.7676, 3);
  });

  test("no more is followed at once than there is room for; who leaves makes room", () => {
    writeFileSync(log, "");
    const stops = Array.from({ length: 16 }, (_, i) => watched.follow("1", { criterion: i + 1 }, null, told));
    expect(() => watched.follow("1", { criterion: 99 }, null, told)).toThrow(/followed in 16 ways at once/);
    stops[3]!();
    expect(() => watched.follow("1", { criterion: 99 }, null, told)).not.toThrow();
    // What all others follow goes on.
    expect(() => watched.follow("1", { criterion: 1 }, null, told)).not.toThrow();
  });

  test("no other file is followed", () => {
    for (const id of ["0", "2", "../x", log])
      expect(() => watched.follow(id, {}, null, told)).toThrow(/does not follow/);
  });
});
