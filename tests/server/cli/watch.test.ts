import { execFileSync, spawn } from "node:child_process";
import { once } from "node:events";
import { appendFileSync, chmodSync, readFileSync, renameSync, statSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, onTestFinished, test } from "vitest";
import { LogWatch } from "../../../server/intake/log-watch.ts";
import { root, scratch, trialband, type Finished } from "./trialband.ts";

const files = scratch();
const HEAD = "Bath logger\ntime;A / °C;B / °C\n";
const row = (i: number, a: string, b = "4,1"): string =>
  `2026-03-02 ${String(8 + Math.floor(i / 60)).padStart(2, "0")}:${String(i % 60).padStart(2, "0")}:00;${a};${b}\n`;
const rows = (from: number, to: number, a: (i: number) => string = () => "4,0"): string =>
  Array.from({ length: to - from }, (_, k) => row(from + k, a(from + k))).join("");
const followed = (path: string, criterion = 0.001) => new LogWatch(path, {}, { window: 1800, criterion });
const stateOf = (watch: LogWatch, name = "A") =>
  watch.state().thermometers.find(({ thermometer }) => thermometer === name)!.state;

describe("a log that grows", () => {
  test("is followed line by line: one that is half-written waits, and a pause is a gap", () => {
    const path = files.write("grows.csv", HEAD + rows(0, 20));
    const watch = followed(path);
    expect(watch.look()).toEqual({ changed: true, restarted: false, more: true });
    expect(watch.look()).toEqual({ changed: false, restarted: false, more: false });
    expect(stateOf(watch)).toMatchObject({
      samples: 20,
      criterion: { met: false, since: null, remaining: 1800 - 60 - 19 * 60 },
    });
    appendFileSync(path, row(20, "4,0").slice(0, 24));
    expect(watch.look().changed).toBe(false);
    appendFileSync(path, row(20, "4,0").slice(24) + rows(21, 31));
    watch.look();
    expect(stateOf(watch)).toMatchObject({ samples: 31, criterion: { met: true, remaining: 0 } });
    // The logger pauses for an hour: the bath must prove itself anew.
    appendFileSync(path, rows(90, 92));
    watch.look();
    expect(stateOf(watch)).toMatchObject({ gaps: 1, criterion: { met: false, remaining: 1800 - 60 - 60 } });
  });

  test("is followed from its new beginning once it is cut or replaced, and waits while it is away", () => {
    const path = files.write("cut.csv", HEAD + rows(0, 10));
    const watch = followed(path);
    watch.look();
    writeFileSync(path, HEAD + rows(0, 3));
    expect(watch.look()).toMatchObject({ changed: true, restarted: true });
    expect(stateOf(watch).samples).toBe(3);
    renameSync(path, files.path("cut.1.csv"));
    watch.look();
    expect(watch.state().there).toBe(false);
    writeFileSync(path, HEAD + rows(0, 5));
    watch.look();
    expect(watch.state()).toMatchObject({
      there: true,
      notes: expect.arrayContaining([expect.stringContaining("cut or replaced")]) as string[],
    });
    expect(stateOf(watch).samples).toBe(5);
  });

  test("leaves out what cannot be used, and goes on where the clock was set back", () => {
    const path = files.write(
      "odd.csv",
      HEAD + rows(0, 4) + row(4, "warm") + row(5, "----") + "time;A / °C;B / °C\n" + row(3, "4,0") + row(4, "4,0"),
    );
    const watch = followed(path);
    watch.look();
    expect(watch.state().leftOut).toEqual({ rows: 1, latest: expect.stringContaining("row 7") as string });
    expect(watch.state().notes.join()).toContain("the clock went back by 2 min at row 10");
    expect(stateOf(watch).samples).toBe(6);
  });

  test("a reading that cannot be used takes nothing from the other thermometers, and is named with its own", () => {
    const ohms = (i: number, a: string, b: string): string => row(i, a, b);
    const path = files.write(
      "ohms.csv",
      "time;A / Ω;B / Ω\n" + ohms(0, "127,85", "127,86") + ohms(1, "127,85", "-999,9") + ohms(2, "9999,9", "127,86"),
    );
    const watch = new LogWatch(path, { resistance: { nominalResistance: 100 } }, { window: 1800, criterion: 0.001 });
    watch.look();
    expect([stateOf(watch, "A").samples, stateOf(watch, "B").samples]).toEqual([2, 2]);
    expect(watch.state().leftOut).toEqual({ rows: 2, latest: "row 4, A: 9999,9" });
  });

  test("a figure that is no temperature is left out: a survey refuses it too", () => {
    const path = files.write("hot.csv", HEAD + row(0, "4,0") + row(1, "-300") + row(2, "4,0"));
    const watch = followed(path);
    watch.look();
    expect(stateOf(watch).samples).toBe(2);
    expect(watch.state().leftOut).toEqual({ rows: 1, latest: "row 4, A: −300" });
  });

  test("loses no more than the line of a stray quote", () => {
    const path = files.write("quotes.csv", HEAD + rows(0, 4));
    const watch = followed(path);
    watch.look();
    appendFileSync(path, row(4, '"4,0"') + row(5, '"4,0') + row(6, '4,"0') + rows(7, 9));
    watch.look();
    expect(stateOf(watch).samples).toBe(7);
    expect(watch.state().leftOut).toEqual({
      rows: 2,
      latest: "row 9: a quote that is not closed or stands within a cell",
    });
  });

  test("spreads rows of one time up to the next one, as a survey does: its clock does not run ahead", () => {
    const minutes = Array.from({ length: 20 }, (_, i) => row(i, "4,0") + row(i, "4,0") + row(i, "4,0")).join("");
    const watch = followed(files.write("minutes.csv", HEAD + minutes));
    watch.look();
    // The last minute's second and third row wait for the time after it.
    expect(stateOf(watch)).toMatchObject({ samples: 58, interval: 20, to: stateOf(watch).from + 19 * 60 });
    expect(watch.state().notes).toEqual(["several rows have one time, first row 4: spread up to the next time"]);
  });

  test("finds thermometers by their headings before letters, and keeps two of one heading apart", () => {
    const path = files.write("letters.csv", "time,B / °C,A / °C,T / °C,T / °C\n0,1,2,3,4\n10,1,2,3,4\n");
    const values = (columns?: string[]) => {
      const watch = new LogWatch(path, { columns }, { window: 1800, criterion: null });
      watch.look();
      return watch.state().thermometers.map(({ thermometer, state }) => [thermometer, state.value]);
    };
    expect(values()).toEqual([
      ["B", 1],
      ["A", 2],
      ["T (D)", 3],
      ["T (E)", 4],
    ]);
    expect(values(["A", "E"])).toEqual([
      ["A", 2],
      ["E", 4],
    ]);
    expect(() => values(["T"])).toThrow("a letter, D or E");
    expect(() => values(["time"])).toThrow("one of B, A, T, T");
  });
});

/** Follows a log, does each step once what was said since the one before shows its words, and never waits longer than 20 s. */
async function following(args: readonly string[], steps: readonly [RegExp, () => void][]): Promise<Finished> {
  const finished = trialband("watch", ...args, "--every", "0.02s");
  const captured = process.stdout.write;
  let said = "";
  let next = 0;
  process.stdout.write = (text: string | Uint8Array): boolean => {
    captured.call(process.stdout, text);
    said += String(text);
    const step = steps[next];
    if (step?.[0].test(said) === true) {
      next++;
      said = "";
      step[1]();
    }
    return true;
  };
  const limit = setTimeout(() => process.emit("SIGINT"), 20_000);
  try {
    return await finished;
  } finally {
    clearTimeout(limit);
    expect(next).toBe(steps.length);
  }
}
const interrupt = (): void => void process.emit("SIGINT");

describe("trialband watch", () => {
  test("--once says how the bath stands within 100 columns, and by its exit code whether the criterion is met", async () => {
    // Within ±5 mK of 4.2 °C from 08:18 on, where 4.190 °C stands: 30 min from there less one interval is 08:47.
    const path = files.write("once.csv", HEAD + rows(0, 60, (i) => (i < 20 ? `4,${100 + 5 * i}` : "4,2")));
    const steady = await trialband("watch", path, "--once", "--criterion", "5mK", "--time", "25min");
    expect(steady.status).toBe(0);
    expect(steady.stdout).toContain("A: met since 2026-03-02T08:47:00");
    for (const line of steady.stdout.split("\n")) expect(line.length).toBeLessThanOrEqual(100);
    const longer = await trialband("watch", path, "--once", "--criterion", "5mK", "--time", "45min");
    expect(longer.status).toBe(3);
    expect(longer.stdout).toMatch(/A: not met: within ±5\.000 mK since 2026-03-02T08:18:00; must hold another 3.min\n/);
    const json = await trialband("watch", path, "--once", "--json", "--thermometer", "B");
    expect(json.status).toBe(0);
    expect(JSON.parse(json.stdout)).toMatchObject({
      there: true,
      thermometers: [{ thermometer: "B", state: { samples: 60, value: 4.1 } }],
      asked: { window: 1800, calibration: null, criterion: null },
    });
    const waiting = await trialband("watch", files.write("head.csv", HEAD), "--once");
    expect(waiting).toMatchObject({ status: 3, stdout: expect.stringContaining("Waiting for readings.") as string });
  });

  test("writes lines into a pipe as the log grows, and --until-met ends with 0 once the criterion is met", async () => {
    const path = files.write("until.csv", HEAD + rows(0, 25));
    const { status, stdout, stderr } = await following(
      [path, "--criterion", "1mK", "--until-met"],
      [[/ {2}B {2}/, () => appendFileSync(path, row(24, "4,0") + rows(25, 40))]],
    );
    expect(status).toBe(0);
    // What is no reading stands beside the lines.
    expect(stderr).toBe("several rows have one time, first row 28: spread up to the next time\n");
    const lines = stdout.trim().split("\n");
    expect(lines).toHaveLength(4);
    expect(lines[0]).toMatch(
      /^2026-03-02T08:24:00 {2}A {2}4\.0000.°C {2}drift .* not met: .* must hold another 5.min$/,
    );
    expect(lines.at(-1)).toMatch(/^2026-03-02T08:39:00 {2}B .*met since 2026-03-02T08:29:00$/);
  });

  test("--json writes one object a line, over a log that is not there yet, cut and replaced", async () => {
    const path = files.path("json.csv");
    const { status, stdout } = await following(
      [path, "--json", "--criterion", "1mK", "--until-met"],
      [
        [/"there":false/, () => writeFileSync(path, HEAD + rows(0, 9) + row(9, "4,0").slice(0, 22))],
        [/"samples":9/, () => writeFileSync(path, HEAD + rows(0, 3))],
        [
          /"samples":3/,
          () => {
            writeFileSync(files.path("new.csv"), HEAD + rows(0, 35, () => "5,1"));
            renameSync(files.path("new.csv"), path);
          },
        ],
      ],
    );
    expect(status).toBe(0);
    const states = stdout
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line) as ReturnType<LogWatch["state"]>);
    expect(states.map(({ there }) => there)).toEqual([false, true, true, true]);
    expect(states.at(-1)).toMatchObject({
      notes: ["the file was cut or replaced: followed from its new beginning"],
      thermometers: [{ state: { samples: 35, value: 5.1, criterion: { met: true } } }, { thermometer: "B" }],
    });
  });

  test("keeps one view up to date on a terminal, within its columns, until Ctrl+C", async () => {
    const before = { isTTY: process.stdout.isTTY, columns: process.stdout.columns };
    onTestFinished(() => void Object.assign(process.stdout, before));
    Object.assign(process.stdout, { isTTY: true, columns: 72 });
    const path = files.write("live.csv", HEAD + rows(0, 4));
    const { status, stdout } = await following(
      [path, "--criterion", "1mK"],
      [
        [/B: not met/, () => appendFileSync(path, rows(4, 6))],
        [/6 readings[^]*B: not met/, interrupt],
      ],
    );
    expect(status).toBe(130);
    // The second view is written over the first: up by as many lines as that had.
    const [first, up, second] = stdout.split(/\u001B\[(\d+)A\u001B\[J/);
    expect(Number(up)).toBe(first!.split("\n").length - 1);
    expect(second).toContain("6 readings");
    for (const line of `${first}${second}`.split("\n")) expect(line.length).toBeLessThanOrEqual(72);
  });

  test("ends with 130 in a process of its own that Ctrl+C interrupts", async () => {
    const child = spawn(process.execPath, [join(root, "bin.mjs"), "watch", files.write("own.csv", HEAD + rows(0, 4))], {
      stdio: ["ignore", "pipe", "inherit"],
    });
    const ended = once(child, "exit");
    await once(child.stdout, "data");
    child.kill("SIGINT");
    expect(await ended).toEqual([130, null]);
  });

  test("hears Ctrl+C while it reads a long log", async () => {
    // More than the 4 MiB that are read at once.
    const path = files.write("long.csv", HEAD + rows(0, 4) + "\n".repeat(4_300_000));
    const before = process.listenerCount("SIGINT");
    const finished = trialband("watch", path, "--once");
    await expect.poll(() => process.listenerCount("SIGINT"), { interval: 0 }).toBeGreaterThan(before);
    interrupt();
    expect(await finished).toEqual({ status: 130, stdout: "", stderr: "" });
  });

  test.each<[string, string, string[], RegExp]>([
    ["a file that is not there", "none.csv", [], /There is no file .*none\.csv\./],
    ["a folder", "", [], /is not a file\./],
    ["a pipe by a name", "fifo", [], /is not a file\./],
    ["a photograph", "photo.csv", [], / {2}photo\.csv: got "bytes of value 0"; expected text, not a binary file/],
    ["a text that is no log", "notes.txt", [], / {2}notes\.txt: got 400 rows; expected rows with a time and readings/],
    ["a date that may be two", "two.csv", [], /--dates day-first or --dates month-first/],
    ["a thermometer that is none", "unit.csv", ["--thermometer", "Z", "--unit", "K"], /one of A/],
    ["a column without a unit", "unit.csv", [], /--unit °C, K, mK, °F or Ω/],
    [
      "a unit that is none",
      "unit.csv",
      ["--unit", "bar"],
      / {2}unit\.csv, column A: got bar; expected --unit °C, K, mK, °F or Ω/,
    ],
    ["resistances without R₀", "unit.csv", ["--unit", "Ω"], /--r0 with R₀ in Ω/],
    ["a criterion without a unit", "unit.csv", ["--criterion", "5"], /such as 5mK or 0\.005K/],
    ["a time that is none", "unit.csv", ["--time", "soon"], /such as 90s, 45min or 1\.5h/],
    ["a window of nothing", "unit.csv", ["--window", "0s"], /such as 90s, 45min or 1\.5h/],
    ["another order of dates", "unit.csv", ["--dates", "year-first"], /day-first, month-first/],
    ["an R₀ below nothing", "unit.csv", ["--r0=-100"], /a number greater than 0/],
    ["an option that is none", "unit.csv", ["--until"], /unknown option '--until'/],
    ["waiting for nothing", "unit.csv", ["--unit", "K", "--until-met"], /--criterion/],
  ])("refuses %s", async (_, name, flags, message) => {
    if (name === "two.csv") files.write(name, "time,A / °C\n03/04/2026 08:00:00,1\n03/04/2026 08:00:10,1\n");
    if (name === "unit.csv") files.write(name, "time / s,A\n0,1.5\n1,1.5\n2,1.5\n");
    if (name === "photo.csv") writeFileSync(files.path(name), Buffer.from("89504e470d0a1a0a0000000d49484452", "hex"));
    if (name === "notes.txt") files.write(name, "The bath was filled, and stirred, by hand.\n".repeat(400));
    if (name === "fifo") execFileSync("mkfifo", [files.path(name)]);
    const { status, stderr } = await trialband("watch", files.path(name), "--once", ...flags);
    expect(stderr).toMatch(message);
    expect(status).toBe(2);
  });

  test("only reads the log: its bytes, time and permissions stay", async () => {
    const path = files.write("same.csv", HEAD + rows(0, 5));
    utimesSync(path, 1000, 1000);
    chmodSync(path, 0o444);
    const before = { bytes: readFileSync(path), ...statSync(path) };
    expect((await trialband("watch", path, "--once")).status).toBe(0);
    const { mtimeMs, mode, size } = statSync(path);
    expect({ mtimeMs, mode, size }).toEqual({ mtimeMs: before.mtimeMs, mode: before.mode, size: before.size });
    expect(readFileSync(path)).toEqual(before.bytes);
    // Linux opens a program that runs for reading alone (open(2), ETXTBSY), whoever asks.
    const program = await trialband("watch", process.execPath, "--once");
    expect(program.stderr).toContain('got "bytes of value 0"; expected text, not a binary file');
  });
});
