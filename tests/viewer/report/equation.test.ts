// How plain-text equations and numbers are set. Style of symbols: ISO 80000-1:2009, 7.1 (quantities italic, units and
// descriptive subscripts upright); decimal sign and grouping: 7.3 (rules as in ISO 31-0; clause numbers open).
import { describe, expect, test } from "vitest";
import { equationMarkup } from "../../../viewer/report/equation.ts";
import { numbersWith, quotientUnit, withUnit } from "../../../viewer/present/numbers.ts";

const q = (base: string, subscript = "", primes = ""): string =>
  `<span class="q"><var>${base}</var>${subscript === "" ? "" : `<sub>${subscript}</sub>`}${primes}</span>`;
const lineOf = (equation: string, known: readonly string[] = []): string =>
  /<div>(.*?)<\/div>/s.exec(equationMarkup(equation, new Set(known)).markup.replaceAll(/\n\s*(?=>)/g, ""))![1]!;

describe("equations", () => {
  test.each<[string, string, (readonly string[])?]>([
    ["δY = X_1² + X_2²", `${q("δY")} = ${q("X", "1")}² + ${q("X", "2")}²`],
    ["R = (V/I)·cos φ", `${q("R")} = (${q("V")}/${q("I")})·cos ${q("φ")}`],
    ["F = τ·10^((t_X − e) / z)", `${q("F")} = ${q("τ")}·10<sup>(${q("t", "X")} − ${q("e")}) / ${q("z")}</sup>`],
    ["y = x^2", `${q("y")} = ${q("x")}<sup>2</sup>`],
    ["ρ_X′ = R_s′·δt_sh,S", `${q("ρ", "X", "′")} = ${q("R", "s", "′")}·${q("δt", "sh,S")}`],
    ["y = gain·x", `${q("y")} = gain·${q("x")}`],
    ["y = gain·x", `${q("y")} = ${q("gain")}·${q("x")}`, ["gain"]],
    ["t − 273.15 °C", `${q("t")} − 273.15\u00a0°C`],
    ["a·(b − 1.2 kg/m³)", `a·(${q("b")} − 1.2\u00a0kg/m³)`],
    ["x < y & z", `${q("x")} &lt; ${q("y")} &amp; ${q("z")}`],
    ["y = 10^(x", `${q("y")} = 10<sup>(${q("x")}</sup>`],
  ])("%s", (equation, expected, known = []) => {
    expect(lineOf(equation, known)).toBe(expected);
  });

  test("one line an equation", () => {
    expect(equationMarkup("Y_1 = X_1; Y_2 = X_2", new Set()).markup.match(/<div>/g)).toHaveLength(2);
  });
});

describe("numbers", () => {
  const en = numbersWith(".", ", ", " to ");
  const de = numbersWith(",", "; ", " bis ");
  test.each([
    [en.fixed(-0.00907, 4), "\u22120.0091"],
    [en.fixed(-0.00001, 3), "0.000"],
    [de.fixed(1234567.891, 2), "1\u202f234\u202f567,89"],
    [en.significant(2.345e-9, 3), "2.35\u00a0×\u00a010⁻⁹"],
    [en.significant(0, 3), "0"],
    [en.plain(0.00005), "0.00005"],
    [en.plain(1e-7), "1\u00a0×\u00a010⁻⁷"],
    [de.plain(134.0022), "134,0022"],
    [en.percent(0.00001), "<\u00a00.1\u00a0%"],
    [en.percent(0), "0.0\u00a0%"],
    [de.probability(0.9545), "95,45\u00a0%"],
    [en.freedom(null), "∞"],
    [en.freedom(16.75), "16.8"],
    [en.freedom(4.1e8), ">\u00a0100\u202f000"],
    [de.interval(["1,0", "2,0"]), "[1,0;\u00a02,0]"],
    [withUnit("1.5", "10⁻⁶ m"), "1.5\u00a0×\u00a010⁻⁶ m"],
    [withUnit("1.5", "1"), "1.5"],
    [quotientUnit("°C", "°C"), "1"],
    [quotientUnit("mg", "kg/m³"), "mg/(kg/m³)"],
    [quotientUnit("1/°C", "°C"), "(1/°C)/°C"],
  ])("%s", (found, expected) => {
    expect(found).toBe(expected);
  });
});
