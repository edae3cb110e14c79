import { expect, test } from "vitest";
import { checkEquation, loadEquationReader } from "../../../models/index.ts";

await loadEquationReader();

const check = (equation: string, units: Record<string, string>): string => {
  const checked = checkEquation(equation, new Map(Object.entries(units).map(([name, unit]) => [name, { unit }])));
  return checked.ok
    ? "fits"
    : checked.problems.map(({ place, got }) => `${equation.slice(place.from, place.to)}: ${got}`).join("; ");
};

test.each<[string, Record<string, string>, string]>([
  ["e = a − b", { e: "°C", a: "°C", b: "K" }, "fits"],
  ["e = a − b", { e: "°C", a: "°C", b: "mK" }, "b: a term in mK beside one in °C"],
  ["e = a − b/1000", { e: "°C", a: "°C", b: "mK" }, "fits"],
  ["e = a − b", { e: "°C", a: "°C", b: "Ω" }, "b: a term in Ω beside one in °C"],
  ["e = c·b", { e: "°C", c: "K/Ω", b: "Ω" }, "fits"],
  ["e = c·b", { e: "mK", c: "K/Ω", b: "Ω" }, "c·b: a result in °C"],
  ["U = I·R_1", { U: "V", I: "A", R_1: "Ω" }, "fits"],
  ["U = I·R_1", { U: "V", I: "mA", R_1: "Ω" }, "I·R_1: a result in V"],
  ["rho = m/V", { rho: "kg/m³", m: "kg", V: "m³" }, "fits"],
  ["s = √(a² + b²)", { s: "mm", a: "mm", b: "mm" }, "fits"],
  ["s = √(a² + b)", { s: "mm", a: "mm", b: "mm" }, "b: a term in mm beside one in m²"],
  ["y = exp(a/b)", { y: "1", a: "s", b: "s" }, "fits"],
  ["y = exp(a)", { y: "1", a: "s" }, "a: the argument of exp in s"],
  [
    "y = a^b",
    { y: "m", a: "m", b: "m" },
    "b: an exponent in m; a: the base of a power whose exponent is not a number in m; a^b: a result in 1",
  ],
  ["e = t(R_X, R_0) − t_S", { e: "°C", R_X: "Ω", R_0: "Ω", t_S: "°C" }, "fits"],
  ["e = t(R_X, R_0) − t_S", { e: "°C", R_X: "kΩ", R_0: "Ω", t_S: "°C" }, "R_0: a value in Ω"],
  ["y = R(t_X, R_0)", { y: "Ω", t_X: "Ω", R_0: "Ω" }, "t_X: a value in Ω"],
  ["T = 273.15 + t_X", { T: "K", t_X: "°C" }, "fits"],
  ["y = a·unknown", { y: "m", a: "s" }, "fits"],
])("%s with %j", (equation, units, expected) => {
  expect(check(equation, units)).toBe(expected);
});
