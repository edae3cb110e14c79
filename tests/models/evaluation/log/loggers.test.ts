import { describe, expect, it, test } from "vitest";
import {
  allRows,
  formatInstant,
  platinum,
  plateaus,
  proposeLog,
  readSeries,
  separatorOf,
  spread,
  straighten,
  thermometerLog,
  type LogProposal,
  type SeriesRequest,
} from "../../../../models/index.ts";
import { parseStamp } from "../../../../models/evaluation/text/stamp.ts";
import { openLog } from "../../../../server/intake/table.ts";
import { fileOf } from "../../../server/intake/source.ts";

// Eight invented loggers, each with habits that files of real ones show (common practice).
interface Logger {
  readonly habit: string;
  readonly text: string;
  /** What a person has to state, beside what is proposed. */
  readonly stated?: Omit<SeriesRequest, "thermometers">;
  readonly thermometers?: SeriesRequest["thermometers"];
  readonly proposed: Partial<LogProposal>;
  readonly times: readonly number[];
  readonly values: Readonly<Record<string, readonly number[]>>;
  readonly notes: readonly RegExp[];
}

const at = (text: string): number => Date.parse(`${text}Z`) / 1000;

const LOGGERS: readonly Logger[] = [
  {
    habit: "an instrument's lines above the heading, semicolons, decimal commas, a half-written last line",
    text: [
      "Harrowfen bath logger, two channels",
      "Serial;HL-0042",
      "Started, by hand;02.03.2026 08:00:00",
      "",
      "Zeitstempel;HS-11 [°C];HS-12 [°C]",
      "02.03.2026 08:00:00;72,0012;72,0034",
      "02.03.2026 08:00:10;72,0015;72,0031",
      "02.03.2026 08:00:20;72,0018;72,0033",
      "02.03.2026 08:00:30;72,00",
    ].join("\r\n"),
    proposed: { headingRow: 5, time: "Zeitstempel", clock: "dated", unfinished: true, rows: 3, ambiguous: null },
    times: [0, 10, 20].map((second) => at("2026-03-02T08:00:00") + second),
    values: { "HS-11": [72.0012, 72.0015, 72.0018], "HS-12": [72.0034, 72.0031, 72.0033] },
    notes: [/headings in row 5, below 3 lines/, /row 9, the last, ends half-written/],
  },
  {
    habit: "month first with AM and PM, overload and dashes",
    text:
      "Date/Time,HS-11 (°C),HS-12 (°C)\n" +
      "3/2/2026 11:59:50 AM,4.001,OVLD\n3/2/2026 12:00:00 PM,4.002,4.012\n3/2/2026 12:00:10 PM,----,4.013\n3/2/2026 12:00:20 PM,4.004,4.014\n",
    stated: { dates: "month-first" },
    proposed: { headingRow: 1, dates: null, ambiguous: "3/2/2026 11:59:50 AM" },
    times: [0, 10, 20, 30].map((second) => at("2026-03-02T11:59:50") + second),
    values: { "HS-11": [4.001, 4.002, NaN, 4.004], "HS-12": [NaN, 4.012, 4.013, 4.014] },
    notes: [/HS-12: 1 × OVLD, no reading/, /HS-11: 1 × ----, no reading/],
  },
  {
    habit: "date and time apart, day first with two-digit years as a day beyond the 12th shows, units in a row below",
    text:
      "No.\tDay\tClock\tHS-11\tHS-12\n\tdd/mm/yy\th:m:s\t°C\t°C\n" +
      "1\t12/03/26\t23:59:50\t-40.01\t-40.02\n2\t13/03/26\t00:00:00\t-40.03\t-40.04\n3\t13/03/26\t00:00:10\t-40.05\t-40.06\n",
    stated: { timeOfDay: "Clock" },
    proposed: { headingRow: 1, time: "Day", timeOfDay: "Clock", dates: "day-first", ambiguous: null },
    times: [0, 10, 20].map((second) => at("2026-03-12T23:59:50") + second),
    values: { "HS-11": [-40.01, -40.03, -40.05], "HS-12": [-40.02, -40.04, -40.06] },
    notes: [/dates read day first/],
  },
  {
    habit: "minutes since the start in columns of spaces, resistances with the thermometers' own coefficients",
    text: "minutes  R1/Ohm   R2/Ohm\n0.0      138.5055 100.0000\n0.5      138.5050 100.0010\n1.0      138.5045 100.0020\n",
    stated: { time: "minutes", timeUnit: "min" },
    thermometers: {
      one: { column: "R1", nominalResistance: 100, coefficients: { A: 3.9083e-3, B: -5.775e-7 } },
      two: { column: "R2", nominalResistance: 100.002, coefficients: { A: 3.9848e-3, B: -5.87e-7, C: -4e-12 } },
    },
    proposed: { headingRow: 1, time: "minutes", clock: "elapsed" },
    times: [0, 30, 60],
    // IEC 60751 gives 138.5055 Ω at 100 °C; a change divided by the slope there,
    // R₀·(A + 2·B·100) = 0.379275 Ω/K, for the others.
    values: {
      one: [100, 99.9986817, 99.9973634],
      two: [100, 100.001, 100.002].map((ohm) =>
        platinum.callendarVanDusen.temperatureAt({ A: 3.9848e-3, B: -5.87e-7, C: -4e-12 }, 100.002, ohm),
      ),
    },
    notes: [/one converted from Ω/],
  },
  {
    habit: "a clock set back by an hour at the end of summer time, and the logger started again",
    text: "time;HS-11 / °C;HS-12 / °C\n2026-10-25T02:59:40;4,1;4,2\n2026-10-25T02:59:50;4,1;4,2\n2026-10-25T02:00:00;4,1;4,2\n2026-10-25T02:00:10;4,1;4,2\ntime;HS-11 / °C;HS-12 / °C\n2026-10-25T02:00:20;4,1;4,2\n",
    stated: { clock: "before" },
    proposed: { steps: [{ row: 4, from: at("2026-10-25T02:59:50"), to: at("2026-10-25T02:00:00") }] },
    times: [0, 10, 20, 30, 40].map((second) => at("2026-10-25T02:59:40") + second),
    values: { "HS-11": [4.1, 4.1, 4.1, 4.1, 4.1], "HS-12": [4.2, 4.2, 4.2, 4.2, 4.2] },
    notes: [/the headings stand 1 more times/, /went back by 59\.8 min at row 4/],
  },
  {
    habit: "a clock that shows minutes, with several rows each",
    text: "Time,HS-11 C,HS-12 C\n08:15,4.1,4.2\n08:15,4.2,4.3\n08:16,4.3,4.4\n08:16,4.4,4.5\n08:17,4.5,4.6\n",
    stated: { sameTime: "spread", day: at("2026-03-02T00:00:00") },
    thermometers: { "HS-11": { column: "HS-11 C", unit: "°C" }, "HS-12": { column: "C", unit: "°C" } },
    proposed: { clock: "of-day", sameTime: 2, time: "Time" },
    times: [0, 30, 60, 90, 120].map((second) => at("2026-03-02T08:15:00") + second),
    values: { "HS-11": [4.1, 4.2, 4.3, 4.4, 4.5], "HS-12": [4.2, 4.3, 4.4, 4.5, 4.6] },
    notes: [/2 rows under a time stamp of the row above were spread/],
  },
  {
    habit: "no headings, names of months, past midnight, NUL at the end",
    text: "02-Mar-2026 23:59:50;134.01;134.02\n03-Mar-2026 00:00:00;134.03;134.04\n03-Mar-2026 00:00:20;134.05;134.06\n\0\0\0\0",
    stated: { headingRow: 0, time: "A" },
    thermometers: { "HS-11": { column: "B", unit: "°C" }, "HS-12": { column: "C", unit: "degC" } },
    proposed: { headingRow: 0, firstRow: 1, time: "A", clock: "dated" },
    times: [0, 10, 30].map((second) => at("2026-03-02T23:59:50") + second),
    values: { "HS-11": [134.01, 134.03, 134.05], "HS-12": [134.02, 134.04, 134.06] },
    notes: [/characters of value 0/],
  },
  {
    habit: "one reading a row at uneven times, a bridge's 9.9E37 for an overload, a laboratory's own word",
    text: 'time,channel,"value / °C"\n0,HS-11,72.1\n1,HS-12,72.2\n7,HS-11,9.9E37\n9,HS-12,72.4\n30,HS-11,72.5\n31,HS-12,warming\n47,HS-11,72.7\n48,HS-12,72.8\n',
    stated: { noReading: ["Warming"] },
    proposed: { headingRow: 1, clock: "elapsed", timeUnit: null },
    thermometers: { "HS-11": {} },
    times: [0, 30, 47],
    values: { "HS-11": [72.1, 72.5, 72.7] },
    notes: [/HS-11: 1 × 9\.9E37, no reading/, /has no unit: read as seconds/],
  },
];

describe("files of eight invented loggers", () => {
  const open = (text: string) => openLog(fileOf("log.csv", text));

  it.each(LOGGERS)("$habit", async ({ text, stated = {}, thermometers, proposed, times, values, notes }) => {
    const proposal = proposeLog(await allRows(open(text)));
    expect(proposal).toMatchObject(proposed);
    const own = Object.fromEntries(
      proposal.thermometers.map(({ name, column, unit }) => [
        name,
        { ...(column === null ? {} : { column }), ...(unit === null ? {} : { unit }) },
      ]),
    );
    const series = await readSeries(open(text), { ...stated, thermometers: thermometers ?? own });
    for (const [name, expected] of Object.entries(values)) {
      const log = series.logs.find(({ thermometer }) => thermometer === name)!;
      const there = expected.flatMap((value, i) => (Number.isNaN(value) ? [] : [[times[i]!, value] as const]));
      expect(Array.from(log.times), name).toEqual(there.map(([time]) => time));
      there.forEach(([, value], i) => expect(log.values[i], name).toBeCloseTo(value, 6));
    }
    for (const note of notes) expect(series.notes.join("\n")).toMatch(note);
  });

  it("asks for the order of a date that may be two, and names the field", async () => {
    await expect(readSeries(open(LOGGERS[1]!.text), { thermometers: { "HS-11": {}, "HS-12": {} } })).rejects.toThrow(
      /row 2, column Date\/Time.*day-first or month-first as log\.dates/,
    );
  });
});

test("times of a clock that was set back are moved before or after the step", () => {
  const written = [100, 110, 50, 60, 20, 30];
  const before = Float64Array.from(written);
  expect(straighten(before, "before", 10)).toEqual([70, 120]);
  expect(Array.from(before)).toEqual([100, 110, 120, 130, 140, 150]);
  const after = Float64Array.from(written);
  expect(straighten(after, "after", 10)).toEqual([-120, -50]);
  expect(Array.from(after)).toEqual([-20, -10, 0, 10, 20, 30]);
  const right = Float64Array.of(1, 2, 4);
  expect(straighten(right, "after", 1)).toEqual([]);
  expect(Array.from(right)).toEqual([1, 2, 4]);
});

test("rows under one stamp are spread up to the next", () => {
  const times = Float64Array.of(0, 0, 0, 60, 120, 120);
  expect(spread(times)).toBe(3);
  expect(Array.from(times)).toEqual([0, 20, 40, 60, 120, 180]);
});

describe("time stamps", () => {
  it.each([
    ["3/2/2026 1:05:06 PM", "month-first", "2026-03-02T13:05:06"],
    ["3/2/26 12:00 am", "day-first", "2026-02-03T00:00:00"],
    ["2026/03/02 08:00", null, "2026-03-02T08:00:00"],
    ["13/02/2026", null, "2026-02-13T00:00:00"],
    ["02-13-2026 08:00:00", null, "2026-02-13T08:00:00"],
    ["Mon, 2. März 2026 08:00:00", null, "2026-03-02T08:00:00"],
    ["Mar 2, 2026 08:00:00", null, "2026-03-02T08:00:00"],
    ["2 déc. 2026 08:00", null, "2026-12-02T08:00:00"],
    ["02.03.26 08:00:00", null, "2026-03-02T08:00:00"],
    ["2/2/2026 08:00:00", null, "2026-02-02T08:00:00"],
  ] as const)("%s, %s: %s", (text, order, expected) => {
    const stamp = parseStamp(text, order);
    expect(stamp).not.toBeNull();
    expect(formatInstant((stamp as { seconds: number }).seconds)).toBe(expected);
  });

  it.each(["31/02/2026", "13/13/2026", "0:60", "13:00 PM", "2026-13-01", "3 Foo 2026", "12.5", "", "1/2/3"])(
    "%j is none",
    (text) => expect(parseStamp(text, "day-first")).toBeNull(),
  );

  it("says that a date may be two", () => expect(parseStamp("03/04/2026 08:00:00", null)).toBe("ambiguous"));
});

test.each([
  ["a;1,5;2,5\nb;1,5;2,5\n", ";"],
  ["One, two, three, four\na\t1\t2\nb\t1\t2\n", "\t"],
  ["2026-03-02 08:00:00,1,2\n2026-03-02 08:00:10,1,2\n", ","],
  ["0 1.5 2.5\n1 1.5 2.5\n", " "],
])("the separator of %j is %j", (text, separator) => expect(separatorOf(text)).toBe(separator));

test("plateaus are found where one of two thermometers was moved by little, or both at once", () => {
  // White noise of 0.3 mK by a fixed congruence; levels 0, 4 mK and −4 mK against the other; a dip as both move.
  let state = 1;
  const noise = (): number => {
    let sum = 0;
    for (let i = 0; i < 12; i++) sum += (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
    return 0.0003 * (sum - 6);
  };
  const levels = [0, 0.004, -0.004];
  const dip = (i: number): number => (i >= 200 && i < 205 ? -0.02 : 0);
  const times = Array.from({ length: 300 }, (_, i) => 10 * i);
  const a = thermometerLog(
    "a",
    times,
    times.map((_, i) => levels[Math.floor(i / 100)]! + dip(i) + noise()),
  );
  const b = thermometerLog(
    "b",
    times,
    times.map((_, i) => dip(i) + noise()),
  );
  const found = plateaus([a, b]);
  expect(found).toHaveLength(3);
  found.forEach(({ from, to }, k) => {
    expect(Math.abs(from - 1000 * k)).toBeLessThanOrEqual(30);
    expect(Math.abs(to - (1000 * (k + 1) - 10))).toBeLessThanOrEqual(30);
  });
  expect(plateaus([thermometerLog("short", [0, 1, 2], [0, 0, 0])])).toEqual([]);
});
