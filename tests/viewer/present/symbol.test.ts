import { expect, test } from "vitest";
import { equationLines } from "../../../viewer/present/equation.ts";
import { symbolParts } from "../../../viewer/present/symbol.ts";

test.each([
  ["δt_rep", "δt", "rep"],
  ["x1", "x1", ""],
  ["ν_eff", "ν", "eff"],
])("%s", (symbol, base, subscript) => {
  expect(symbolParts(symbol)).toEqual({ base, subscript, primes: "" });
});

test("units, numbers and functions of an equation stay upright", () => {
  // Equation (33) of JCGM 101:2008, 9.3, as the model states it.
  const equation = "δm = (m_Rc + δm_Rc)·[1 + (a − 1.2 kg/m³)·(1/ρ_W − 1/ρ_R)] − m_nom";
  const [pieces] = equationLines(equation, new Set(["δm", "m_Rc", "δm_Rc", "a", "ρ_W", "ρ_R", "m_nom"]));
  const symbols = pieces!.flatMap((piece) => ("symbol" in piece ? [piece.symbol] : []));
  expect(symbols).toEqual(["δm", "m_Rc", "δm_Rc", "a", "ρ_W", "ρ_R", "m_nom"]);
  expect(
    pieces!
      .map((piece) => ("symbol" in piece ? piece.symbol : "text" in piece ? piece.text : "^"))
      .join("")
      .replaceAll("\u00a0", " "),
  ).toBe(equation);
});
