// How figures and lists are written: digits are the same in both languages, the decimal sign is not (CGPM, 22nd meeting, 2003, Resolution 10).
import { describe, expect, test } from "vitest";
import { speech as de } from "../../../engine/sentences/de/speech.ts";
import { speech as en } from "../../../engine/sentences/en/speech.ts";

describe("figures", () => {
  test.each([
    { value: 0.01234, decimals: 3, unit: "°C", english: "0.012 °C", german: "0,012 °C" },
    { value: -0.19, decimals: 3, unit: "°C", english: "−0.190 °C", german: "−0,190 °C" },
    { value: 1250, decimals: -2, unit: "mg", english: "1300 mg", german: "1300 mg" },
    { value: 2, decimals: 1, unit: "1", english: "2.0", german: "2,0" },
    { value: -0.0001, decimals: 2, unit: "1", english: "0.00", german: "0,00" },
    { value: 0.0000123, decimals: 7, unit: "Ω", english: "0.0000123 Ω", german: "0,0000123 Ω" },
    { value: 2.54e-8, decimals: 9, unit: "1/°C", english: "25 × 10⁻⁹ 1/°C", german: "25 × 10⁻⁹ 1/°C" },
    { value: 1.64e-10, decimals: 11, unit: "1", english: "0.16 × 10⁻⁹", german: "0,16 × 10⁻⁹" },
    { value: 6.4e-14, decimals: 14, unit: "1", english: "0.06 × 10⁻¹²", german: "0,06 × 10⁻¹²" },
  ])("$value at $decimals decimals", ({ english, german, ...rounded }) => {
    expect(en.figure(rounded)).toBe(english);
    expect(de.figure(rounded)).toBe(german);
  });

  test.each([
    { value: 3, digits: 3, english: "3", german: "3" },
    { value: 17.849, digits: 3, english: "17.8", german: "17,8" },
    { value: -0.35534, digits: 4, english: "−0.3553", german: "−0,3553" },
    { value: 0.2 + 0.1, digits: 12, english: "0.3", german: "0,3" },
    { value: 1.26e-9, digits: 2, english: "1.3 × 10⁻⁹", german: "1,3 × 10⁻⁹" },
    { value: 1.5e21, digits: 2, english: "1.5 × 10²¹", german: "1,5 × 10²¹" },
  ])("$value to $digits digits", ({ value, digits, english, german }) => {
    expect(en.significant(value, digits)).toBe(english);
    expect(de.significant(value, digits)).toBe(german);
  });
});

describe("shares", () => {
  test.each([
    { share: -0.003, english: "0 %", german: "0 %" },
    { share: 0.0004, english: "0 %", german: "0 %" },
    { share: 0.0171, english: "1.7 %", german: "1,7 %" },
    { share: 0.0994, english: "9.9 %", german: "9,9 %" },
    { share: 0.0996, english: "10 %", german: "10 %" },
    { share: 0.437, english: "44 %", german: "44 %" },
  ])("$share", ({ share, english, german }) => {
    expect(en.percent(share)).toBe(english);
    expect(de.percent(share)).toBe(german);
  });

  test.each([
    { value: 0.5, rest: 0.5, english: "50.00 %", german: "50,00 %" },
    // Two small risks are told apart, from each other and from a limit of 0.05 %.
    { value: 0.000497, rest: 0.999503, english: "0.0497 %", german: "0,0497 %" },
    { value: 0.000536, rest: 0.999464, english: "0.0536 %", german: "0,0536 %" },
    { value: 0.001, rest: 0.999, english: "0.10 %", german: "0,10 %" },
    { value: 0.9994, rest: 0.0006, english: "99.9400 %", german: "99,9400 %" },
    { value: 1, rest: 1e-20, english: "more than 99.9999 %", german: "mehr als 99,9999 %" },
    { value: 1e-20, rest: 1, english: "less than 0.0001 %", german: "weniger als 0,0001 %" },
    // No event in 10⁵ trials: less than 3/n (the rule of three: (1 − 3/n)ⁿ = e⁻³ = 0.05).
    { value: 0, rest: 1, least: 3e-5, english: "less than 0.003 %", german: "weniger als 0,003 %" },
    { value: 1, rest: 0, least: 3e-5, english: "more than 99.997 %", german: "mehr als 99,997 %" },
    // Rounded away from certainty: 3/70 000 is 0.0043 %.
    { value: 0, rest: 1, least: 3 / 70_000, english: "less than 0.005 %", german: "weniger als 0,005 %" },
  ])("a probability of $value never reads as certain", ({ english, german, ...chance }) => {
    expect(en.chance(chance)).toBe(english);
    expect(de.chance(chance)).toBe(german);
  });
});

test.each([
  { parts: [], english: "", german: "" },
  { parts: ["a"], english: "a", german: "a" },
  { parts: ["a", "b"], english: "a and b", german: "a und b" },
  { parts: ["a", "b", "c"], english: "a, b and c", german: "a, b und c" },
])("a list of $parts", ({ parts, english, german }) => {
  expect(en.list(parts)).toBe(english);
  expect(de.list(parts)).toBe(german);
});
