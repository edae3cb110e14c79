import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isQuantityName } from "../../../engine/internal.ts";
import {
  checkEquation,
  equationFunctions,
  isScripted,
  loadEquationReader,
  typedEquation,
  type Expression,
} from "../../../models/index.ts";

await loadEquationReader();

const none = new Map<string, never>();
const valueOf = (equation: string, x: Record<string, number>): unknown => typedEquation.build({ equation }).evaluate(x);
const problemOf = (equation: string): { text: string; got: string; expected: string } => {
  const checked = checkEquation(equation, none);
  if (checked.ok) throw new Error(`${equation} was taken`);
  const { place, got, expected } = checked.problems[0]!;
  return { text: equation.slice(place.from, place.to), got, expected };
};

describe("algebra as mathematics reads it", () => {
  test.each([
    // Common practice in mathematics: powers before signs and products, products before sums, equal ones from the left.
    ["y = a + b·c", { a: 1, b: 2, c: 3 }, 7],
    ["y = a − b − c", { a: 1, b: 2, c: 3 }, -4],
    ["y = a / b / c", { a: 12, b: 2, c: 3 }, 2],
    ["y = −a²", { a: 3 }, -9],
    ["y = (−a)^2", { a: 3 }, 9],
    ["y = a^b^c", { a: 2, b: 3, c: 2 }, 512],
    ["y = a·−b", { a: 2, b: 3 }, -6],
    ["y = a^-2", { a: 2 }, 0.25],
    ["y = a⁻¹ + a³", { a: 2 }, 8.5],
    ["y = |a − b|·√(c)", { a: 1, b: 3, c: 9 }, 6],
    ["y = 1.5e-3·a × 2 ÷ b", { a: 4, b: 3 }, 0.004],
    ["y = min(a, b) + max(a, b)", { a: 4, b: 3 }, 7],
    ["y = sgn(a)*lg(b) + ln(exp(c))", { a: -4, b: 1000, c: 2 }, -1],
    ["y = sin(π/2·a)", { a: 1 }, 1],
    ["d = a − b; y = d²", { a: 4, b: 1 }, 9],
  ] as const)("%s", (equation, x, expected) => {
    expect(valueOf(equation, x)).toBeCloseTo(expected, 14);
  });

  test.each([
    // IEC 60751:2022, table 1: R(100 °C) = 138.51 Ω and R(−100 °C) = 60.26 Ω of a Pt100.
    ["y = t(R_X, R_0)", { R_X: 138.5055, R_0: 100 }, 100],
    ["y = R(t_X, R_0)", { t_X: 100, R_0: 100 }, 138.5055],
    ["y = t(R_X, R_0, A, B, C)", { R_X: 60.2558, R_0: 100, A: 3.9083e-3, B: -5.775e-7, C: -4.183e-12 }, -100],
    // ITS-90, table 1: W_r of the melting point of gallium, 29.7646 °C, is 1.11813889.
    ["y = W_r(t_X)·1", { t_X: 29.7646 }, 1.11813889],
    ["y = t_90(W)", { W: 1.11813889 }, 29.7646],
  ] as const)("%s", (equation, x, expected) => {
    expect(valueOf(equation, x)).toBeCloseTo(expected, 3);
  });

  test("without C the thermometer's own curve ends at 0 °C", () => {
    const x = { R_X: 99, R_0: 100, A: 3.9083e-3, B: -5.775e-7 };
    expect(valueOf("y = t(R_X, R_0, A, B)", x)).toBeNaN();
    expect(valueOf("y = t(R_X, R_0, A, B)", { ...x, R_X: 138.5055 })).toBeCloseTo(100, 4);
  });
});

describe("mistakes are told with their place", () => {
  test.each([
    ["e = 2 x", "x", "an operator such as · between the two"],
    ["e = 1,5·x", ",", "a decimal point in numbers; a comma only between the values of a function"],
    ["e = log(x)", "log(x)", "ln or lg"],
    ["e = (a + b", "", "a closing bracket"],
    ["e = a +", "", "a number, a quantity or a function"],
    ["e = t(R)", "t(R)", /^t\(R, R_0\) by IEC 60751/],
    ["e = foo(x)", "foo(x)", /^one of t, R, /],
    ["a + b", "+", "an equation: a quantity, an equals sign and an expression"],
    ["a = b = c", "=", "one equals sign in each equation, after a single quantity"],
    ["e = 1e999·x", "1e999", "a number below 1.8e308"],
    ["δe = δd; δd = a", "δd", "a quantity of an earlier line"],
    ["e = constructor", "constructor", /a name of letters, digits and _/],
    ["e = d; d = a", "d", "a quantity of an earlier line"],
    ["e = a; e = b", "e", "one line for each quantity"],
    ["e = 3", "e = 3", "at least one input quantity"],
    ["", "", "an equation such as e = t(R_X, R_0) − t_S"],
  ])("%s", (equation, text, expected) => {
    const problem = problemOf(equation);
    expect(problem.text).toBe(text);
    if (typeof expected === "string") expect(problem.expected).toBe(expected);
    else expect(problem.expected).toMatch(expected);
  });

  test("in a study the place is the parameter, with line and character", () => {
    expect(() => typedEquation.build({ equation: "d = a − b\ne = log(d)" })).toThrow(
      "parameters.equation: got function log at line 2, character 5; expected ln or lg",
    );
  });
});

describe("malicious text", () => {
  test.each([
    "e = a.constructor",
    'e = a["constructor"]',
    "e = (() => a)()",
    "e = a; return process",
    "e = `${a}`",
    "e = 'a'",
    "e = a, b",
    "e = a ? b : c",
    "e = new Date()",
    "e = constructor(a)",
    "e = __proto__(a)",
    "e = toString(a)",
    "e = a /* b */",
    "e = a // b",
    "e = import(a)",
    "e = a = 1",
    "e = a\u2028b",
    "__proto__ = a",
  ])("%s", (equation) => {
    expect(checkEquation(equation, none).ok).toBe(false);
  });

  test.each([
    ["brackets", `e = ${"(".repeat(1900)}a${")".repeat(1900)}`],
    ["signs", `e = ${"-".repeat(3000)}a`],
    ["powers", `e = ${"a^".repeat(1500)}a`],
    ["terms", `e = ${"a+".repeat(1900)}a`],
    ["calls", `e = ${"abs(".repeat(900)}a${")".repeat(900)}`],
    ["length", `e = ${"a".repeat(5000)}`],
  ])("too many %s end in a message, not at the end of the stack", (_what, equation) => {
    expect(problemOf(equation).got).toMatch(/^more than |^\d+ characters$/);
  });

  test("any text is either read or refused with a place inside it", () => {
    const pieces = fc.constantFrom(..."ab_0.1,()+-−*·/^|√²eE=;\n δRt[]{}'\"`$\\", "sin", "t(", "⁻");
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 40 }), (parts) => {
        const text = parts.join("");
        const checked = checkEquation(text, none);
        if (checked.ok) return;
        for (const { place, got, expected } of checked.problems) {
          expect(place.from).toBeGreaterThanOrEqual(0);
          expect(place.to).toBeLessThanOrEqual(text.length);
          expect(got.length * expected.length).toBeGreaterThan(0);
        }
      }),
      { numRuns: 200, seed: 134 },
    );
  });
});

describe("symbols that are no names", () => {
  test.each([
    ["e = t_X − δt_ax", ["t_X", "delta_t_ax"], ["t_X", "δt_ax"]],
    ["ΔT = R′·ρ_{lo} + ν", ["R", "rho__lo", "nu"], ["R′", "ρ_lo", "ν"]],
    ["e = Übertrag·ä", ["ubertrag", "a"], ["Übertrag", "ä"]],
    // A name that another quantity has gets a number.
    ["e = delta − δ", ["delta", "delta2"], ["delta", "δ"]],
    ["e = ä − a", ["a2", "a"], ["ä", "a"]],
  ])("%s", (equation, names, symbols) => {
    const { inputs, equation: shown } = typedEquation.build({ equation });
    expect(Object.keys(inputs)).toEqual(names);
    expect(Object.values(inputs).map(({ symbol }) => symbol)).toEqual(symbols);
    // What print shows reads as the same equation, with the same names.
    expect(Object.keys(typedEquation.build({ equation: shown! }).inputs)).toEqual(names);
  });

  test("a study that states such a name for its symbol means the same quantity", () => {
    const quantities = { delta_t_ax: { symbol: "δt_ax", meaning: "axial difference", unit: "°C" } };
    const { inputs } = typedEquation.build({ equation: "e = t_X − δt_ax", quantities });
    expect(inputs["delta_t_ax"]).toEqual(quantities.delta_t_ax);
  });
});

describe("text that means harm", () => {
  const WORDS = [
    "constructor",
    "__proto__",
    "prototype",
    "toString",
    "process",
    "globalThis",
    "require",
    "eval",
    "Function",
    "this",
  ];

  test("whatever is read calls functions of the list alone and reads quantities alone", () => {
    const part = fc.oneof(
      fc.constantFrom(...WORDS, "a", "b", "1", "exp", "t", "x", "'s'", "`s`"),
      fc.constantFrom(
        "(",
        ")",
        ".",
        "[",
        "]",
        ",",
        "+",
        "−",
        "·",
        "/",
        "^",
        "=",
        ";",
        "=>",
        "?.",
        "${",
        "}",
        "|",
        "\\u0061",
        "//",
      ),
    );
    fc.assert(
      fc.property(fc.array(part, { maxLength: 25 }), (parts) => {
        const checked = checkEquation(`y = a + ${parts.join("")}`, none);
        if (!checked.ok) return;
        const walk = (expression: Expression): void => {
          if (expression.kind === "call") {
            expect(equationFunctions.has(expression.name)).toBe(true);
            expression.operands.forEach(walk);
          } else if (expression.kind === "operation") [expression.left, expression.right].forEach(walk);
          else if (expression.kind === "negative") walk(expression.of);
          else if (expression.kind === "quantity") expect(isQuantityName(expression.name)).toBe(true);
          else expect(Number.isFinite(expression.value)).toBe(true);
        };
        checked.equations.forEach(({ expression }) => walk(expression));
      }),
      { numRuns: 1000, seed: 16 },
    );
  });

  test("its script holds names of quantities as text, functions of the list and nothing that was typed", () => {
    for (const word of WORDS) {
      const model = typedEquation.build({
        equation: `y = q·2 + exp(q)`,
        quantities: { q: { symbol: word, meaning: "'; x" } },
      });
      expect(isScripted(model) && model.script).toBe(
        '((algebra) => { "use strict"; const f_exp = algebra["exp"]; return (x) => { const q0 = x["q"] * 2 + f_exp(x["q"]); return q0; }; })',
      );
    }
  });

  test.each([
    ["brackets and calls by turns", "y = a", (n: number) => "+exp(a".repeat(n)],
    ["open roots", "y = ", (n: number) => "√(".repeat(n)],
    ["absolute values", "y = ", (n: number) => "|a+".repeat(n)],
    ["roots of roots", "y = ", (n: number) => "√√|".repeat(n)],
    ["powers with many signs", "y = a", (n: number) => `^${"-".repeat(11)}a`.repeat(n)],
    ["everything by turns", "y = a", (n: number) => "^-(|a+√max(a,".repeat(n)],
    ["lines", "y = a", (n: number) => "\nb = c".repeat(n)],
    ["subscripts", "y = ", (n: number) => "a_{".repeat(n)],
    ["signs between powers", "y = a", (n: number) => "^-".repeat(n)],
    ["commas", "y = max(", (n: number) => "a,".repeat(n)],
    ["figures", "y = a·", (n: number) => "1".repeat(n)],
  ])("%s up to the longest text end soon", (_what, head, tail) => {
    for (const n of [10, 24, 40, 49, 100, 500, 1300]) {
      const text = `${head}${tail(n)}`.slice(0, 4000);
      const clock = performance.now();
      checkEquation(text, none);
      // Milliseconds when nothing else runs; a reading that goes back over the text again and again would take minutes.
      expect(performance.now() - clock, `${n}`).toBeLessThan(5000);
    }
  });
});
