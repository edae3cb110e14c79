// Parameters of a model as a reader sees them: symbols and units in place of the study's names.
import { expect, test } from "vitest";
import { parametersOf } from "../../../viewer/present/parameters.ts";
import { labelText } from "../../../viewer/present/pictures/label.ts";
import { languages } from "../../../viewer/present/messages/index.ts";
import { ENGLISH } from "../../../viewer/present/statement.ts";

const quantity = (symbol: string, unit: string) => ({ symbol, meaning: symbol, unit });
const source = (parameters: Readonly<Record<string, unknown>>) =>
  ({
    inputs: { thermal: quantity("δt_th", "K"), length: quantity("L", "mm") },
    measurands: { result: quantity("e", "mm") },
    study: { parameters },
  }) as unknown as Parameters<typeof parametersOf>[0];
const told = (parameters: Readonly<Record<string, unknown>>, language: "en" | "de" = "en"): string[] =>
  parametersOf(source(parameters), { ...ENGLISH, messages: languages[language] }).map(
    ({ label, text }) => `${labelText(label)}: ${text}`,
  );

test.each([
  // The unit of a sensitivity coefficient is that of the result over that of the input (JCGM 100, 5.1.3).
  [
    { coefficients: { thermal: -0.5, length: 1 } },
    ["Sensitivity coefficient of δt_th: −0.5\u00a0mm/K", "Sensitivity coefficient of L: 1"],
  ],
  [
    { terms: { thermal: { unit: "K", difference: true } } },
    ["Unit of δt_th: K", "Is δt_th a difference of temperatures?: yes"],
  ],
  [{ measurand: { symbol: "e", unit: "1" } }, ["Symbol of e: e", "Unit of e: dimension one"]],
  [{ equation: "y = a + b" }, ["Equation: y = a + b"]],
  [{ subRange: "1", fitC: false }, ["Sub range: 1", "Fit c: no"]],
  [{ temperatures: [-40, 4.5, 134] }, ["Temperatures: −40; 4.5; 134\u00a0°C"]],
  [{ chain: { first: null, second: [1] } }, ["Chain: first none, second 1"]],
  [{}, []],
])("%j", (parameters, lines) => {
  expect(told(parameters)).toEqual(lines);
});

test("in German too", () => {
  expect(told({ coefficients: { thermal: 2 } }, "de")[0]).toMatch(/^Empfindlichkeitskoeffizient von δt_th: 2/);
});
