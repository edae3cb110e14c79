import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  decimalsWritten,
  formatInstant,
  outlineOf,
  parseDecimal,
  parseInstant,
  readUnit,
  splitHeading,
  thermometerLog,
} from "../../../../models/index.ts";

describe("instants", () => {
  it("property: every second of four centuries goes to text and back, as the calendar of ECMAScript has it", () => {
    fc.assert(
      fc.property(fc.integer({ min: Date.UTC(1800, 0, 1) / 1000, max: Date.UTC(2199, 11, 31) / 1000 }), (seconds) => {
        const text = formatInstant(seconds);
        return text === new Date(seconds * 1000).toISOString().slice(0, 19) && parseInstant(text)?.seconds === seconds;
      }),
      { seed: 23, numRuns: 500 },
    );
  });

  it.each([
    ["2026-03-02T08:15:00Z", 1772439300, true],
    ["2026-03-02T09:15:00+01:00", 1772439300, true],
    ["2026-03-02 08:15:00", 1772439300, false],
    ["02.03.2026 08:15:00", 1772439300, false],
    ["2026-03-02T08:15:00,250", 1772439300.25, false],
    ["2024-02-29", 1709164800, false],
  ])("%s", (text, seconds, zoned) => {
    expect(parseInstant(text)).toEqual({ seconds, zoned });
  });

  it.each([
    "03/02/2026 08:15",
    "2026-02-29",
    "2026-13-01",
    "2026-03-02T24:00:00",
    "2026-03-02T08:60:00",
    "yesterday",
    "20260302",
  ])("not %s", (text) => {
    expect(parseInstant(text)).toBeNull();
  });
});

describe("decimals", () => {
  it.each([
    ["1.5", 1.5, "."],
    ["1,5", 1.5, ","],
    ["−0,25", -0.25, ","],
    ["+3", 3, null],
    [" 2e-3 ", 0.002, null],
    [".5", 0.5, "."],
  ] as const)("%s", (text, value, mark) => {
    expect(parseDecimal(text)).toEqual({ value, mark });
  });

  it.each(["", "1.234,5", "1,234.5", "1 000", "0x10", "NaN", "Infinity", "1e999", "--1", "1.", "1,"])(
    "strictly: %j",
    (text) => {
      // A mark at the end is a whole number still.
      if (/^1[.,]$/.test(text)) expect(parseDecimal(text)?.value).toBe(1);
      else expect(parseDecimal(text)).toBeNull();
    },
  );

  it.each([
    ["0.100", 3],
    ["100", 0],
    ["1.50e-2", 4],
    ["1.5e1", 0],
    ["12,340", 3],
  ])("%s was written to %i places", (text, places) => {
    expect(decimalsWritten(text)).toBe(places);
  });
});

describe("headings and units", () => {
  it.each([
    ["HS-11 / °C", "HS-11", "°C"],
    ["HS-11 [mK]", "HS-11", "mK"],
    ["HS-11 (Ω)", "HS-11", "Ω"],
    ["time", "time", null],
    ["(K)", "(K)", null],
  ])("%s", (heading, name, unit) => {
    expect(splitHeading(heading)).toEqual({ name, unit });
  });

  it.each([
    ["°C", "°C"],
    ["degC", "°C"],
    ["K", "K"],
    ["mK", "mK"],
    ["MK", null],
    ["Ohm", "Ω"],
    ["Ω", "Ω"],
    ["°F", "°F"],
    ["V", null],
  ])("%s is read as %s", (text, unit) => {
    expect(readUnit(text)).toBe(unit);
  });
});

describe("outline of a log for a plot", () => {
  it("keeps every extreme and leaves gaps open", () => {
    const times = Array.from({ length: 5000 }, (_, i) => i + (i >= 2500 ? 5000 : 0));
    const values = times.map((_, i) => (i === 1234 ? 9 : i === 4000 ? -9 : (i % 10) / 10));
    const outline = outlineOf(thermometerLog("A", times, values), 100);
    expect(Math.max(...outline.highest)).toBe(9);
    expect(Math.min(...outline.lowest)).toBe(-9);
    expect(outline.times.length).toBeLessThan(60);
    expect(Math.max(...outline.times.slice(1).map((time, i) => time - outline.times[i]!))).toBeGreaterThan(4900);
  });
});
