import { expect, test } from "vitest";
import { dsiUnit } from "../../../../models/index.ts";

// SI brochure, 9th edition, tables 2, 4, 7 and 8; the notation of D-SI: \per and \tothe{n}.
test.each([
  ["1", "\\one"],
  ["°C", "\\degreecelsius"],
  ["mK", "\\milli\\kelvin"],
  ["m°C", "\\milli\\degreecelsius"],
  ["kg", "\\kilogram"],
  ["mg", "\\milli\\gram"],
  ["Ω", "\\ohm"],
  ["Ω/K", "\\ohm\\per\\kelvin"],
  ["kg/m³", "\\kilogram\\per\\metre\\tothe{3}"],
  ["1/K", "\\kelvin\\tothe{-1}"],
  ["m s⁻¹", "\\metre\\per\\second"],
  ["J/(kg·K)", "\\joule\\per\\kilogram\\per\\kelvin"],
  ["K²", "\\kelvin\\tothe{2}"],
  ["µm", "\\micro\\metre"],
  ["nm", "\\nano\\metre"],
  ["min", "\\minute"],
  ["%", "\\percent"],
])("%s is %s", (unit, notation) => {
  expect(dsiUnit(unit)).toBe(notation);
});

test.each(["div", "°F", "ppm", "J/kg·K", "kkg", "m/s/s", "", "mmin", "K0", "constructor"])("%s has none", (unit) => {
  expect(dsiUnit(unit)).toBeNull();
});
