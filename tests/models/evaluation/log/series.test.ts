import { describe, expect, it } from "vitest";
import { readSeries, type SeriesRequest } from "../../../../models/index.ts";
import { openTable } from "../../../../server/intake/index.ts";
import { fileOf } from "../../../server/intake/source.ts";
import { LONG } from "../../../setup/long.ts";

const request: SeriesRequest = { thermometers: { A: {}, B: {} } };
const read = (text: string, asked: SeriesRequest = request) => readSeries(openTable(fileOf("log.csv", text)), asked);
const values = async (text: string, asked?: SeriesRequest) =>
  (await read(text, asked)).logs.map((log) => Array.from(log.values));

describe("words that every object answers to", () => {
  it.each(["constructor", "toString", "__proto__"])("%s is no unit, of time or of a thermometer", async (word) => {
    await expect(read(`time / ${word},A / °C,B / °C\n0,1,2\n`)).rejects.toThrow(/expected s, min, h or ms/);
    await expect(read(`time / s,A / ${word},B / °C\n0,1,2\n`)).rejects.toThrow(/expected °C, K, mK/);
  });

  it("name thermometers", async () => {
    const { logs } = await read("time / s,constructor / °C,toString / °C\n0,1,2\n1,3,4\n", {
      thermometers: { constructor: {}, toString: {} },
    });
    expect(logs.map(({ thermometer, values: v }) => [thermometer, ...v])).toEqual([
      ["constructor", 1, 3],
      ["toString", 2, 4],
    ]);
  });
});

describe("logs", () => {
  it.each([
    ["ISO times", "time,A / °C,B / °C\n2026-03-02T08:00:00,1.5,2\n2026-03-02T08:00:10,1.6,2.1\n"],
    [
      "dotted dates, decimal commas, CRLF, a byte-order mark",
      "\uFEFFZeit;A [°C];B [°C]\r\n02.03.2026 08:00:00;1,5;2\r\n02.03.2026 08:00:10;1,6;2,1\r\n",
    ],
    ["elapsed seconds", "elapsed (s),A (°C),B (°C)\n0,1.5,2\n10,1.6,2.1\n"],
    [
      "elapsed minutes in quotes with decimal commas",
      'time / min,A / °C,B / °C\n"0","1,5","2"\n"0,1666666666666667","1,6","2,1"\n',
    ],
    ["date and time apart", "date;time;A / °C;B / °C\n2026-03-02;08:00:00;1.5;2\n2026-03-02;08:00:10;1.6;2.1\n"],
    ["one reading a row", "time,channel,value / °C\n0,A,1.5\n0,B,2\n10,A,1.6\n10,B,2.1\n"],
    ["one reading a row with its unit", "time,sensor,reading,unit\n0,A,1.5,°C\n0,B,2,degC\n10,A,1.6,C\n10,B,2.1,°C\n"],
    ["units in the cells", "time / s,A / °C,B / °C\n0,1.5 °C,2 °C\n10,1.6 °C,2.1 °C\n"],
    ["kelvin beside degrees", "time / s,A / K,B / °C\n0,274.65,2\n10,274.75,2.1\n"],
    ["thermometers of others between", "time / s,C / °C,B / °C,A / °C\n0,9,2,1.5\n10,9,2.1,1.6\n"],
    ["empty cells", "time / s,A / °C,B / °C\n0,1.5,\n1,,2\n10,1.6,2.1\n"],
  ])("%s", async (_, text) => {
    const [a, b] = await values(text);
    expect(a!.map((value) => Number(value.toFixed(9)))).toEqual([1.5, 1.6]);
    expect(b!.map((value) => Number(value.toFixed(9)))).toEqual([2, 2.1]);
  });

  it("keeps the moments of every thermometer apart", async () => {
    const { logs } = await read("time / s,A / °C,B / °C\n0,1,\n1,,2\n10,3,\n11,,4\n");
    expect(logs.map(({ times }) => Array.from(times))).toEqual([
      [0, 10],
      [1, 11],
    ]);
  });

  it("reads clocks: with a zone, across midnight, and to fractions of a second", async () => {
    const { logs } = await read(
      "time,A / °C,B / °C\n2026-03-01T23:59:59.5+01:00,1,1\n2026-03-02T00:00:00.25+01:00,1,1\n2026-03-02T08:00:00Z,1,1\n",
    );
    const [first] = logs[0]!.times;
    expect(Array.from(logs[0]!.times, (time) => time - first!)).toEqual([0, 0.75, 8 * 3600 + 3600 + 0.5]);
  });

  it("converts resistances by IEC 60751: 110 Ω is 25.684046663 °C, 80 Ω is −50.771137040 °C", async () => {
    const asked = { thermometers: { A: { nominalResistance: 100 }, B: { nominalResistance: 100 } } };
    const [a, b] = await values("time / s,A / Ω,B / ohm\n0,110,80\n", asked);
    expect(a![0]).toBeCloseTo(25.684046663, 8);
    expect(b![0]).toBeCloseTo(-50.77113704, 8);
  });

  it("drops what lies outside the times asked for, but checks it", async () => {
    const text = "time / s,A / °C,B / °C\n0,1,1\n10,2,2\n20,3,3\n30,4,4\n40,5,5\n";
    const keep = [
      { from: 10, to: 20 },
      { from: 40, to: 50 },
    ];
    expect(await values(text, { ...request, keep })).toEqual([
      [2, 3, 5],
      [2, 3, 5],
    ]);
    await expect(values(text.replace("4,4", "4,x"), { ...request, keep })).rejects.toThrow(/row 5, column B/);
  });

  it("notes what it assumed", async () => {
    const { notes } = await read("time,A / K,B / K\n0,300,300\n");
    expect(notes).toEqual([
      "time column time has no unit: read as seconds",
      "A converted from K",
      "B converted from K",
    ]);
  });

  it("is bounded in the readings it keeps", async () => {
    const text = `time / s,A / °C,B / °C\n${Array.from({ length: 100 }, (_, i) => `${i},1,1`).join("\n")}\n`;
    await expect(read(text, { ...request, mostReadings: 50 })).rejects.toThrow(/row 27.*more than 50 readings/);
  });
});

describe("logs that cannot be used are refused with row, column and value", () => {
  const head = "time / s,A / °C,B / °C\n";
  it.each([
    [
      "text in a numeric cell",
      `${head}0,1,2\n10,warm,2\n`,
      /log\.csv, row 3, column A \/ °C: got "warm"; expected a number/,
    ],
    ["a hexadecimal number", `${head}0,0x10,2\n`, /row 2, column A \/ °C: got "0x10"/],
    ["a number without end", `${head}0,1e999,2\n`, /row 2, column A/],
    ["thousands separated", "time / s;A / °C;B / °C\n0;1.234,5;2\n", /row 2, column A \/ °C: got "1\.234,5"/],
    [
      "two decimal marks",
      "time / s;A / °C;B / °C\n0;1,5;2\n10;1.6;2\n",
      /row 3, column A \/ °C: got "1\.6"; expected one decimal mark throughout: row 2 has a comma/,
    ],
    [
      "decimal commas between commas",
      `${head}0,1,5,2,1\n`,
      /row 2: got "5 cells: 0 \| 1 \| 5 \| 2 \| 1"; expected 3 cells.*decimal commas need semicolons/,
    ],
    ["a row cut short", `${head}0,1,2\n10,1\n`, /row 3: got "2 cells/],
    [
      "a time twice",
      `${head}0,1,2\n0,1,2\n`,
      /row 3, column time \/ s: got "0"; expected a time that is not in row 2 already/,
    ],
    [
      "times out of order",
      `${head}0,1,2\n20,1,2\n10,1,2\n`,
      /row 4, column time \/ s: got "10"; expected a time after row 3, 20 s/,
    ],
    [
      "a clock set back",
      "time,A / °C,B / °C\n2026-10-25T02:59:50,1,2\n2026-10-25T02:00:00,1,2\n",
      /row 3, column time: got "2026-10-25T02:00:00".*was the clock set back/,
    ],
    ["no time", `${head}soon,1,2\n`, /row 2, column time \/ s: got "soon"/],
    [
      "a date that is not",
      "time,A / °C,B / °C\n2026-02-30T08:00:00,1,2\n",
      /row 2, column time: got "2026-02-30T08:00:00"/,
    ],
    [
      "a date that may be two",
      "time,A / °C,B / °C\n03/04/2026 08:00:00,1,2\n",
      /row 2, column time: got "03\/04\/2026 08:00:00"/,
    ],
    [
      "zones now and then",
      "time,A / °C,B / °C\n2026-03-02T08:00:00Z,1,2\n2026-03-02T08:00:10,1,2\n",
      /row 3, column time.*with its zone/,
    ],
    ["another unit in a cell", `${head}0,1 K,2\n`, /row 2, column A \/ °C: got "1 K"; expected a number in °C/],
    [
      "units that change",
      "time,sensor,value,unit\n0,A,1,°C\n0,B,1,°C\n10,A,274,K\n",
      /row 4, column unit: got "K"; expected °C, the unit of A so far/,
    ],
    [
      "mK beside °C",
      "time / s,A / mK,B / °C\n0,1,2\n",
      /row 1: got "A in mK, B in °C"; expected mK for every thermometer or for none/,
    ],
    ["no unit", "time / s,A,B / °C\n0,1,2\n", /row 1, column A: got "no unit"/],
    ["an unknown unit", "time / s,A / bar,B / °C\n0,1,2\n", /row 1, column A \/ bar: got "bar"/],
    ["a unit of time that is none", "time / km,A / °C,B / °C\n0,1,2\n", /row 1, column time \/ km: got "km"/],
    ["a missing thermometer", "time / s,A / °C\n0,1\n", /row 1: got .*expected a column "B", with its unit/],
    ["a thermometer twice", "time / s,A / °C,A / °C,B / °C\n0,1,1,1\n", /one column "A", not 2/],
    ["no time column", "A / °C,B / °C\n1,2\n", /row 1.*a heading such as time/],
    [
      "a temperature that cannot be",
      `${head}0,-300,2\n`,
      /row 2, column A \/ °C: got "-300"; expected a temperature that can be/,
    ],
    ["nothing at all", "", /log\.csv: got "no row of headings"/],
    ["headings alone", head, /log\.csv, A: got "0 rows, no reading"/],
  ])("%s", async (_, text, message) => {
    await expect(read(text)).rejects.toThrow(message);
  });

  it("a unit other than the description's, and a resistance without R₀", async () => {
    await expect(read(`${head}0,1,2\n`, { thermometers: { A: { unit: "K" }, B: {} } })).rejects.toThrow(
      /row 1, column A \/ °C: got "°C"; expected the unit of the description, K/,
    );
    await expect(read("time / s,A / Ω,B / °C\n0,100,2\n")).rejects.toThrow(/A\.nominalResistance/);
    await expect(
      read("time / s,A / Ω,B / °C\n0,1000,2\n", { thermometers: { A: { nominalResistance: 100 }, B: {} } }),
    ).rejects.toThrow(/row 2, column A \/ Ω: got "1000"; expected a resistance from/);
  });

  it("two readings at one time, where one is taken at a time", async () => {
    await expect(read("time,channel,value / °C\n0,A,1\n0,B,2\n", { ...request, oneAtATime: true })).rejects.toThrow(
      /row 3.*not in row 2 already/,
    );
  });
});

const inUse = (): number => {
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return heapUsed + arrayBuffers;
};

describe("a CSV of 200 MB", () => {
  it("streams in memory that follows what is kept", LONG, async () => {
    const megabytes = 200;
    const rows = 20_000;
    let row = 0;
    let most = 0;
    const before = inUse();
    const encoder = new TextEncoder();
    async function* pieces(): AsyncGenerator<Uint8Array> {
      yield encoder.encode("time / s,A / °C,B / °C,remark\n");
      // A piece of a megabyte at a time, filled up by remarks, so that the rows are few and the bytes many.
      for (let piece = 0; piece < megabytes; piece++) {
        const lines: string[] = [];
        for (let i = 0; i < rows / megabytes; i++, row++)
          lines.push(`${row},72.0${row % 10},72.1,${"x".repeat(10_460)}`);
        most = Math.max(most, inUse());
        yield encoder.encode(`${lines.join("\n")}\n`);
      }
    }
    const { logs, rows: seen } = await readSeries(openTable({ name: "long.csv", chunks: pieces() }), {
      ...request,
      keep: [{ from: 0, to: 9999 }],
    });
    expect(seen).toBe(rows);
    expect(logs[0]!.times).toHaveLength(10_000);
    // Kept: 4 × 80 kB. What is allowed beyond is waste not yet collected: a third of the file.
    expect(most - before).toBeLessThan((megabytes * 1e6) / 3);
  });

  it("of short rows keeps 16 bytes for each reading", async () => {
    const count = 100_000;
    async function* pieces(): AsyncGenerator<Uint8Array> {
      const encoder = new TextEncoder();
      yield encoder.encode("time / s,A / °C,B / °C\n");
      for (let start = 0; start < count; start += 20_000) {
        yield encoder.encode(Array.from({ length: 20_000 }, (_, i) => `${start + i},72.0012,72.0034\n`).join(""));
      }
    }
    const { logs, readings } = await readSeries(openTable({ name: "long.csv", chunks: pieces() }), request);
    expect(readings).toBe(2 * count);
    expect(logs[1]!.values.byteLength + logs[1]!.times.byteLength).toBe(16 * count);
    expect(logs[1]!.times.at(-1)).toBe(count - 1);
  });
});
