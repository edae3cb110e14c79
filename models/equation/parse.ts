import type { Node, Semantics } from "ohm-js";
import { equationFunctions, otherNames } from "./functions.ts";
import { algebra } from "./grammar.ts";
import { partsOf, type Equation, type EquationProblem, type Expression, type Operator, type Place } from "./tree.ts";

/** Longest text that is read, and most brackets and powers within one another: far beyond any measurement model. */
export const LONGEST = 4000;
export const DEEPEST = 50;
/** Most operators of one text: each makes the tree one level deeper. */
const MOST_OPERATORS = 600;

export type Parsed =
  | { readonly ok: true; readonly equations: readonly Equation[] }
  | { readonly ok: false; readonly problems: readonly EquationProblem[] };

/**
 * Reads equations, one a line (or separated by semicolons), into trees. The text is never run: it can hold the
 * grammar's algebra, the functions of `functions.ts`, and names, and nothing else. `loadEquationReader` comes first.
 */
export function parseEquations(text: string): Parsed {
  const problem = sizeProblem(text) ?? emptyProblem(text);
  if (problem !== null) return { ok: false, problems: [problem] };
  const match = algebra().match(text);
  if (match.failed()) return { ok: false, problems: [failureAt(text, match.getRightmostFailurePosition())] };
  const equations: readonly Equation[] = reader()(match)["equations"]();
  const problems = equations.flatMap(({ expression }) => treeProblems(expression));
  return problems.length > 0 ? { ok: false, problems } : { ok: true, equations };
}

const emptyProblem = (text: string): EquationProblem | null =>
  text.trim() === ""
    ? { place: { from: 0, to: 0 }, got: "nothing", expected: "an equation such as e = t(R_X, R_0) − t_S" }
    : null;

/** Bounds that keep every recursion over the text or its tree far from the end of the stack. */
function sizeProblem(text: string): EquationProblem | null {
  if (text.length > LONGEST)
    return { place: { from: 0, to: text.length }, got: `${text.length} characters`, expected: `at most ${LONGEST}` };
  let open = 0;
  let signs = 0;
  let bars = 0;
  let before = "";
  let powers = 0;
  let operators = 0;
  for (let i = 0; i < text.length; i++) {
    const character = text[i]!;
    if (character.trim() === "") continue;
    open += character === "(" ? 1 : character === ")" ? -1 : 0;
    powers += character === "^" ? 1 : 0;
    // A sign or a root before an operand: it may stand within the one before it, whatever lies between them.
    if ("-−–+√".includes(character) && !OPERAND_ENDS.test(before)) signs += 1;
    bars += character === "|" ? 1 : 0;
    before = character;
    operators += OPERATORS.has(character) ? 1 : 0;
    if (operators > MOST_OPERATORS)
      return {
        place: { from: i, to: i + 1 },
        got: `more than ${MOST_OPERATORS} operators`,
        expected: "fewer terms; a sum of many terms can be imported as a table",
      };
    if (open > DEEPEST || powers > DEEPEST || signs > 2 * DEEPEST || bars > 2 * DEEPEST)
      return {
        place: { from: i, to: i + 1 },
        got: `more than ${DEEPEST} brackets or powers, or ${2 * DEEPEST} signs or bars`,
        expected: "several equations, one a line, with a quantity for each part",
      };
  }
  return null;
}

/** The last character of a quantity, a number or a bracket; a bar may open or close, and is taken to open. */
const OPERAND_ENDS = /[\p{L}\p{Nd}_′)}⁰¹²³⁴⁵⁶⁷⁸⁹]/u;

/** What stands at the place where no reading goes on. */
function failureAt(text: string, at: number): EquationProblem {
  const rest = text.slice(at);
  if (/^\s*$/.test(rest)) {
    const open = [...text].reduce((n, c) => n + (c === "(" ? 1 : c === ")" ? -1 : 0), 0);
    return {
      place: { from: at, to: text.length },
      got: "the end of the text",
      expected:
        open > 0
          ? "a closing bracket"
          : text.includes("=")
            ? "a number, a quantity or a function"
            : "an equals sign and an expression",
    };
  }
  const word = /^(?:[\p{L}_][\p{L}\p{Nd}_′]*|\d[\d.]*|\S)/u.exec(rest.trimStart())![0];
  const from = at + rest.length - rest.trimStart().length;
  return {
    place: { from, to: from + word.length },
    got: JSON.stringify(word),
    expected: expectedFor(text, from, word),
  };
}

function expectedFor(text: string, from: number, word: string): string {
  const before = text.slice(0, from).trimEnd();
  const afterOperand = /[\p{L}\p{Nd}_′)|}⁰¹²³⁴⁵⁶⁷⁸⁹]$/u.test(before);
  if (word === "," && /\d$/.test(before))
    return "a decimal point in numbers; a comma only between the values of a function";
  if (afterOperand && /^[\p{L}\p{Nd}(√]/u.test(word)) return "an operator such as · between the two";
  if (word === "=") return "one equals sign in each equation, after a single quantity";
  if (!before.includes("=")) return "an equation: a quantity, an equals sign and an expression";
  return afterOperand
    ? "an operator (+ − · / ^), a closing bracket or the end of the equation"
    : "a number, a quantity or a function";
}

/** Numbers that a double cannot hold; functions that do not exist, or get a number of values that they do not take. */
function treeProblems(expression: Expression): EquationProblem[] {
  const below = partsOf(expression).flatMap(treeProblems);
  if (expression.kind === "number" && !Number.isFinite(expression.value))
    return [{ place: expression.place, got: "a number too large", expected: "a number below 1.8e308" }];
  if (expression.kind !== "call") return below;
  const { name, operands, place } = expression;
  const found = equationFunctions.get(name);
  if (found === undefined) {
    const expected =
      otherNames.get(name) ??
      `one of ${[...equationFunctions.keys()].join(", ")}, or a sign of multiplication before the bracket`;
    return [{ place, got: `function ${name}`, expected }, ...below];
  }
  if (found.operands.includes(operands.length)) return below;
  const got = `${operands.length} ${operands.length === 1 ? "value" : "values"} in ${name}( )`;
  return [{ place, got, expected: found.usage }, ...below];
}

/** The operators by the signs that people type for them. */
const OPERATORS: ReadonlyMap<string, Operator> = new Map([
  ["+", "+"],
  ["-", "-"],
  ["−", "-"],
  ["–", "-"],
  ["*", "*"],
  ["·", "*"],
  ["⋅", "*"],
  ["×", "*"],
  ["/", "/"],
  ["÷", "/"],
]);

const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹";

const placeOf = (node: Node): Place => ({ from: node.source.startIdx, to: node.source.endIdx });

/** A name as it is compared: without the braces that hold a subscript together. */
const nameOf = (node: Node): string => node.sourceString.replace(/[{}]/g, "");

const number = (value: number, place: Place): Expression => ({ kind: "number", value, place });

let made: Semantics | undefined;

/** The semantics that turn a match into trees, made when they are first needed. */
function reader(): Semantics {
  if (made !== undefined) return made;
  /** A chain of operators of equal strength, joined from the left. */
  const chain = (first: Node, signs: Node, others: Node): Expression =>
    others.children.reduce<Expression>(
      (left, other, i) => ({
        kind: "operation",
        operator: OPERATORS.get(signs.children[i]!.sourceString)!,
        left,
        right: other["tree"](),
        place: { from: first.source.startIdx, to: other.source.endIdx },
      }),
      first["tree"](),
    );
  made = algebra()
    .createSemantics()
    .addOperation("tree", {
      Sum: chain,
      Product: chain,
      Power_raised: (base, _sign, raised) => ({
        kind: "operation",
        operator: "^",
        left: base["tree"](),
        right: raised["tree"](),
        place: { from: base.source.startIdx, to: raised.source.endIdx },
      }),
      Signed_negative(sign, operand) {
        return {
          kind: "negative",
          of: operand["tree"](),
          place: { from: sign.source.startIdx, to: operand.source.endIdx },
        };
      },
      Signed_positive: (_sign, operand) => operand["tree"](),
      Postfix_superscript(base, raised) {
        const sign = raised.sourceString.startsWith("⁻") ? -1 : 1;
        const digits = [...raised.sourceString.replace("⁻", "")].map((figure) => RAISED.indexOf(figure)).join("");
        return {
          kind: "operation",
          operator: "^",
          left: base["tree"](),
          right: number(sign * Number(digits), placeOf(raised)),
          place: { from: base.source.startIdx, to: raised.source.endIdx },
        };
      },
      Primary_bracket: (_open, inside, _close) => inside["tree"](),
      Primary_absolute(_open, inside, close) {
        return {
          kind: "call",
          name: "abs",
          operands: [inside["tree"]()],
          place: { from: _open.source.startIdx, to: close.source.endIdx },
        };
      },
      Primary_root(sign, operand) {
        return {
          kind: "call",
          name: "sqrt",
          operands: [operand["tree"]()],
          place: { from: sign.source.startIdx, to: operand.source.endIdx },
        };
      },
      Primary_call(name, _open, operands, close) {
        return {
          kind: "call",
          name: nameOf(name),
          operands: operands.asIteration().children.map((operand: Node) => operand["tree"]()),
          place: { from: name.source.startIdx, to: close.source.endIdx },
        };
      },
      number(_whole, _point, _decimals, _exponent) {
        return number(Number(this.sourceString.replace("−", "-")), placeOf(this));
      },
      name(_first, _rest, _primes) {
        const name = nameOf(this);
        return name === "π" ? number(Math.PI, placeOf(this)) : { kind: "quantity", name, place: placeOf(this) };
      },
    })
    .addOperation("equations", {
      Lines: (_before, lines, _after) => lines.asIteration().children.map((line: Node) => line["equation"]()),
    })
    .addOperation("equation", {
      Line: (name, _sign, sum) => ({ name: nameOf(name), namePlace: placeOf(name), expression: sum["tree"]() }),
    });
  return made;
}
