import { factorBetween, readUnit, unitProduct, type Unit } from "../../engine/internal.ts";
import { equationFunctions, type UnitRule } from "./functions.ts";
import type { Equation, EquationProblem, Expression } from "./tree.ts";

/**
 * What is known of the unit of an expression. `scaled` if a bare number took part that may be a conversion (1000, 60,
 * 1.8): then only the dimension can be compared, not the multiple.
 */
interface Known {
  readonly unit: Unit;
  readonly scaled: boolean;
}

/** `null` if an operand's unit is not stated; `"number"` for a bare number, which takes the unit of what it is added to. */
type Found = Known | "number" | null;

const ONE = readUnit("1")!;
const CELSIUS = readUnit("°C")!;

/** Units in which a message names a dimension, the first that fits. */
const NAMES = [
  "1",
  "°C",
  "Ω",
  "V",
  "A",
  "W",
  "m",
  "kg",
  "s",
  "Pa",
  "J",
  "Hz",
  "Ω/°C",
  "1/°C",
  "1/Ω",
  "m²",
  "m³",
  "kg/m³",
  "m/s",
];

const commensurable = (a: Unit, b: Unit): boolean => factorBetween(a, b) !== null;

const nameOf = (unit: Unit): string =>
  NAMES.find((name) => commensurable(unit, readUnit(name)!)) ??
  [...unit.powers].map(([base, power]) => (power === 1 ? base : `${base}^${power}`)).join("·");

/** How an expression's unit is named: as the quantity states it if it is one, else by its dimension. */
const described = (expression: Expression, unit: Unit, stated: ReadonlyMap<string, string>): string =>
  (expression.kind === "quantity" ? stated.get(expression.name) : undefined) ?? nameOf(unit);

/** A unit with all powers times n, or `null` if one would not be whole. */
function raised(unit: Unit, n: number): Unit | null {
  const powers = [...unit.powers].map(([base, power]) => [base, power * n] as const);
  const ten = unit.ten * n;
  if (![ten, ...powers.map(([, power]) => power)].every(Number.isInteger)) return null;
  // Only whether a multiple is 1 is asked of the result, so the last bits of a factor do not matter.
  return { powers: new Map(powers), ten, factor: unit.factor === 1 ? 1 : Number.NaN, zero: 0 };
}

const known = (unit: Unit | null, scaled = false): Found => (unit === null ? null : { unit, scaled });

/** Numbers that count or halve; any other may convert a unit. */
const converts = (value: number): boolean => !Number.isInteger(value) || Math.abs(value) >= 10;

/**
 * Checks the units of equations if they are stated: terms of a sum in one unit, arguments of functions that are pure
 * numbers or the resistances and temperatures they should be, and the unit of each result.
 *
 * @param units stated units by quantity name; a quantity without one is taken to fit anywhere
 */
export function unitProblems(
  equations: readonly Equation[],
  units: ReadonlyMap<string, string>,
): readonly EquationProblem[] {
  const problems: EquationProblem[] = [];
  const stated = new Map(units);
  const found = new Map<string, Found>();
  for (const [name, text] of units) found.set(name, known(readUnit(text)));
  for (const { name, expression } of equations) {
    const result = unitOf(expression, { found, stated, problems });
    const declared = units.get(name);
    if (declared === undefined) found.set(name, result === "number" ? known(ONE, true) : result);
    else {
      const unit = readUnit(declared);
      const difference = unit === null ? null : disagreement(result, { unit, scaled: false });
      if (difference !== null)
        problems.push({
          place: expression.place,
          got: `a result in ${describedResult(expression, result, stated)}`,
          expected: `${name} in ${declared}, as it is stated${difference === "multiple" ? "; convert in the equation or state the quantities in one unit" : ""}`,
        });
    }
  }
  return problems;
}

const describedResult = (expression: Expression, result: Found, stated: ReadonlyMap<string, string>): string =>
  result === null || result === "number" ? "1" : described(expression, result.unit, stated);

interface Context {
  readonly found: ReadonlyMap<string, Found>;
  readonly stated: ReadonlyMap<string, string>;
  readonly problems: EquationProblem[];
}

/** What two units differ in, or `null`. */
function disagreement(a: Found, b: Found): "dimension" | "multiple" | null {
  if (a === null || b === null || a === "number" || b === "number") return null;
  const factor = factorBetween(a.unit, b.unit);
  if (factor === null) return "dimension";
  return a.scaled || b.scaled || Number.isNaN(factor) || Math.abs(factor - 1) < 1e-12 ? null : "multiple";
}

function unitOf(expression: Expression, context: Context): Found {
  switch (expression.kind) {
    case "number":
      return "number";
    case "quantity":
      return context.found.get(expression.name) ?? null;
    case "negative":
      return unitOf(expression.of, context);
    case "call":
      return unitOfCall(expression, context);
    case "operation": {
      const { operator, left, right } = expression;
      if (operator === "^") return unitOfPower(left, right, context);
      const a = unitOf(left, context);
      const b = unitOf(right, context);
      if (operator === "+" || operator === "-") return unitOfSum(expression, a, b, context);
      return unitOfProduct(operator, [left, a], [right, b]);
    }
  }
}

function unitOfSum(
  { left, right }: Extract<Expression, { kind: "operation" }>,
  a: Found,
  b: Found,
  { stated, problems }: Context,
): Found {
  if (a === "number") return b;
  if (b === "number" || a === null || b === null) return a === null ? b : a;
  const difference = disagreement(a, b);
  if (difference !== null) {
    const [first, second] = [described(left, a.unit, stated), described(right, b.unit, stated)];
    problems.push({
      place: right.place,
      got: `a term in ${second} beside one in ${first}`,
      expected:
        difference === "dimension"
          ? "terms of one dimension"
          : "terms in one unit; convert in the equation or state the quantities alike",
    });
  }
  return { unit: a.unit, scaled: a.scaled || b.scaled };
}

function unitOfProduct(operator: "*" | "/", [left, a]: [Expression, Found], [right, b]: [Expression, Found]): Found {
  const one = (found: Found, part: Expression): Known | null =>
    found === "number" ? { unit: ONE, scaled: bareNumbers(part).some(converts) } : found;
  if (a === "number" && b === "number") return "number";
  const first = one(a, left);
  const second = one(b, right);
  if (first === null || second === null) return null;
  const inverse = operator === "/" ? raised(second.unit, -1) : second.unit;
  return inverse === null ? null : known(unitProduct(first.unit, inverse), first.scaled || second.scaled);
}

/** The numbers of an expression that holds nothing else. */
function bareNumbers(expression: Expression): readonly number[] {
  switch (expression.kind) {
    case "number":
      return [expression.value];
    case "negative":
      return bareNumbers(expression.of);
    case "operation":
      return [...bareNumbers(expression.left), ...bareNumbers(expression.right)];
    case "call":
      return expression.operands.flatMap(bareNumbers);
    case "quantity":
      return [];
  }
}

function unitOfPower(base: Expression, exponent: Expression, context: Context): Found {
  const found = unitOf(base, context);
  requireNumber(exponent, unitOf(exponent, context), "an exponent", context);
  if (found === "number" || found === null) return found === "number" ? known(ONE, true) : null;
  const value = constantOf(exponent);
  if (value === null) {
    requireNumber(base, found, "the base of a power whose exponent is not a number", context);
    return known(ONE, found.scaled);
  }
  return known(raised(found.unit, value), found.scaled);
}

const constantOf = (expression: Expression): number | null =>
  expression.kind === "number"
    ? expression.value
    : expression.kind === "negative" && expression.of.kind === "number"
      ? -expression.of.value
      : null;

function requireNumber(expression: Expression, found: Found, what: string, { stated, problems }: Context): void {
  if (found === null || found === "number" || found.unit.powers.size === 0) return;
  problems.push({
    place: expression.place,
    got: `${what} in ${described(expression, found.unit, stated)}`,
    expected: "a number without a unit",
  });
}

function requireUnit(expression: Expression, found: Found, unit: Unit, name: string, context: Context): void {
  const difference = disagreement(found, known(unit));
  if (difference === null || found === null || found === "number") return;
  context.problems.push({
    place: expression.place,
    got: `a value in ${described(expression, found.unit, context.stated)}`,
    expected: name,
  });
}

function unitOfCall(call: Extract<Expression, { kind: "call" }>, context: Context): Found {
  const operands = call.operands.map((operand) => [operand, unitOf(operand, context)] as const);
  const rule: UnitRule = equationFunctions.get(call.name)!.units;
  const [first, second] = operands;
  switch (rule) {
    case "of a number":
      requireNumber(first![0], first![1], `the argument of ${call.name}`, context);
      return known(ONE);
    case "sign":
      return known(ONE);
    case "keeps the unit":
      for (const [operand, found] of operands.slice(1)) requireSame(operand, found, first!, context);
      return first![1];
    case "square root":
    case "cube root": {
      const found = first![1];
      if (found === null || found === "number") return found === "number" ? known(ONE, true) : null;
      return known(raised(found.unit, rule === "square root" ? 1 / 2 : 1 / 3), found.scaled);
    }
    case "temperature of a resistance":
      requireSame(second![0], second![1], first!, context);
      return known(CELSIUS);
    case "resistance of a temperature":
      requireUnit(first![0], first![1], CELSIUS, "a temperature in °C", context);
      return second![1];
    case "temperature of a ratio":
      requireNumber(first![0], first![1], "a ratio", context);
      return known(CELSIUS);
    case "ratio of a temperature":
      requireUnit(first![0], first![1], CELSIUS, "a temperature in °C", context);
      return known(ONE);
  }
}

function requireSame(
  expression: Expression,
  found: Found,
  [other, otherFound]: readonly [Expression, Found],
  { stated, problems }: Context,
): void {
  if (disagreement(found, otherFound) === null || found === null || found === "number") return;
  if (otherFound === null || otherFound === "number") return;
  problems.push({
    place: expression.place,
    got: `a value in ${described(expression, found.unit, stated)}`,
    expected: `one in ${described(other, otherFound.unit, stated)}, as the other`,
  });
}
