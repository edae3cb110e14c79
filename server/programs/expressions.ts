import type {
  CallExpression,
  ConditionalExpression,
  Expression,
  LogicalExpression,
  MemberExpression,
  ObjectExpression,
} from "acorn";
import type { Condition, Step } from "../../engine/internal.ts";
import { intrinsic } from "./intrinsics.ts";
import { binary, unary } from "./operators.ts";
import type { Frame, Reading } from "./reading.ts";
import {
  asCondition,
  asIndex,
  asNumeric,
  condition,
  constant,
  isConstant,
  notAProgram,
  number,
  whole,
  type Known,
  type Names,
} from "./values.ts";

const GLOBALS: Readonly<Record<string, unknown>> = { Math, Number, Object, NaN, Infinity, undefined, isNaN, isFinite };

/** Reads an expression: what it gives, with what its calls do as steps before it. */
export function readExpression(reading: Reading, expression: Expression, names: Names, frame: Frame): Known {
  const value = (part: Expression): Known => reading.value(part, names, frame);
  switch (expression.type) {
    case "Literal":
      return typeof expression.value === "bigint" || expression.regex !== undefined
        ? notAProgram("a literal")
        : constant(expression.value);
    case "Identifier":
      return named(reading, expression.name, names);
    case "ParenthesizedExpression":
      return value(expression.expression);
    case "UnaryExpression":
      return expression.operator === "void"
        ? constant(undefined)
        : unary(expression.operator, value(expression.argument));
    case "BinaryExpression":
      if (expression.left.type === "PrivateIdentifier") return notAProgram("a private name");
      return binary(expression.operator, value(expression.left), value(expression.right));
    case "LogicalExpression":
      return logical(reading, expression, names, frame);
    case "ConditionalExpression":
      return conditional(reading, expression, names, frame);
    case "MemberExpression":
      return member(reading, expression, names, frame);
    case "CallExpression":
      return call(reading, expression, names, frame);
    case "ArrowFunctionExpression":
    case "FunctionExpression":
      return { kind: "function", node: expression, names };
    case "ObjectExpression":
      return object(expression, value);
    case "ArrayExpression":
      return {
        kind: "list",
        items: expression.elements.map((item) =>
          item === null || item.type === "SpreadElement" ? notAProgram("a list with gaps") : value(item),
        ),
      };
    default:
      return notAProgram(expression.type);
  }
}

function named(reading: Reading, name: string, names: Names): Known {
  for (let scope: Names | null = names; scope !== null; scope = scope.outer) {
    const found = scope.own.get(name);
    if (found !== undefined) return found.kind === "value" ? found.value : number({ op: "local", local: found.local });
  }
  const declaration = reading.scope.declarationOf(name);
  if (declaration === null) return name in GLOBALS ? constant(GLOBALS[name]) : notAProgram(`the name ${name}`);
  const module: Names = { own: new Map(), outer: null };
  if (declaration.kind === "function") return { kind: "function", node: declaration.node, names: module };
  const value = reading.scope.valueOf(name);
  if (typeof value !== "function" || declaration.value === null) return constant(value);
  // A function made by another has that one's names.
  const { found, steps } = reading.apart(() =>
    reading.value(declaration.value!, module, {
      assigned: new Set(),
      block: -1,
      left: false,
      result: null,
      depth: 0,
      loop: null,
    }),
  );
  return steps.length === 0 ? found : notAProgram(`the function ${name}`);
}

function object(expression: ObjectExpression, value: (part: Expression) => Known): Known {
  const fields = new Map<string, Known>();
  for (const property of expression.properties) {
    if (property.type === "SpreadElement") {
      const of = value(property.argument);
      if (of.kind !== "fields") return notAProgram("a copy of an object");
      for (const [name, known] of of.fields) fields.set(name, known);
    } else fields.set(keyOf(property.key, property.computed), value(property.value));
  }
  return { kind: "fields", fields };
}

/** The name of a property that is written, not computed. */
export function keyOf(key: { readonly type: string }, computed: boolean): string {
  const written = key as Expression;
  if (written.type === "Identifier" && !computed) return written.name;
  return written.type === "Literal" ? String(written.value) : notAProgram("a computed name");
}

function member(reading: Reading, expression: MemberExpression, names: Names, frame: Frame): Known {
  if (expression.object.type === "Super" || expression.property.type === "PrivateIdentifier" || expression.optional)
    return notAProgram("a member of another kind");
  const of = reading.value(expression.object, names, frame);
  const key =
    !expression.computed && expression.property.type === "Identifier"
      ? constant(expression.property.name)
      : reading.value(expression.property, names, frame);
  if (isConstant(key)) return field(reading, of, key.value as string | number);
  return of.kind === "constant" ? table(reading, of.value, key) : notAProgram("a member chosen by a trial");
}

/** A field of what is known. */
export function field(reading: Reading, of: Known, key: string | number): Known {
  switch (of.kind) {
    case "trial":
      return {
        ...number({ op: "input", name: String(key), otherwise: null }),
        ...(of.inputs.has(String(key)) ? {} : { maybe: true }),
      } as Known;
    case "fields":
      return of.fields.get(String(key)) ?? constant(undefined);
    case "list":
      return key === "length" ? constant(of.items.length) : (of.items[Number(key)] ?? constant(undefined));
    case "constant": {
      const value = of.value as Readonly<Record<string | number, unknown>> | null | undefined;
      if (value === null || value === undefined) return notAProgram(`${key} of ${value}`);
      return ArrayBuffer.isView(value) ? element(reading, value, key) : constant(value[key]);
    }
    default:
      return notAProgram(`${key} of a ${of.kind}`);
  }
}

/** An element of a typed array; of a scratch array, what was last written to it. */
function element(reading: Reading, array: ArrayBufferView, key: string | number): Known {
  const value = (array as unknown as Readonly<Record<string | number, unknown>>)[key];
  if (typeof key !== "number") return constant(value);
  const written = reading.words.get(array.buffer);
  if (written === undefined)
    return array.buffer.byteLength === 8 ? notAProgram("a scratch array that was not written") : constant(value);
  if (array instanceof Float64Array) return written;
  return array instanceof Int32Array && (key === 0 || key === 1)
    ? whole({ op: "word", which: key, of: asNumeric(written) })
    : notAProgram("a part of a scratch array");
}

function table(reading: Reading, array: unknown, key: Known): Known {
  const numbers =
    array instanceof Float64Array || (Array.isArray(array) && array.every((item) => typeof item === "number"))
      ? Array.from(array as ArrayLike<number>)
      : notAProgram("an element chosen by a trial");
  if (array instanceof Float64Array && array.buffer.byteLength === 8) return notAProgram("a scratch array");
  let at = reading.tables.findIndex(
    (found) => found.length === numbers.length && found.every((item, i) => Object.is(item, numbers[i])),
  );
  if (at < 0) at = reading.tables.push(numbers) - 1;
  return number({ op: "table", table: at, at: asIndex(key) });
}

function call(reading: Reading, expression: CallExpression, names: Names, frame: Frame): Known {
  if (expression.callee.type === "Super" || expression.optional) return notAProgram("a call of another kind");
  const called = reading.value(expression.callee, names, frame);
  const operands = expression.arguments.map((argument) =>
    argument.type === "SpreadElement" ? notAProgram("a list of arguments") : reading.value(argument, names, frame),
  );
  if (called.kind === "function") return reading.call(called.node, called.names, operands);
  if (called.kind !== "constant") return notAProgram("a call of what is no function");
  return (
    intrinsic(called.value, operands, (known) => reading.settled(known)) ??
    reading.call(reading.scope.nodeOf(called.value), { own: new Map(), outer: null }, operands)
  );
}

function logical(reading: Reading, expression: LogicalExpression, names: Names, frame: Frame): Known {
  const left = reading.value(expression.left, names, frame);
  const right = (): Known => reading.value(expression.right, names, frame);
  if (expression.operator === "??") {
    if (isConstant(left)) return left.value === undefined || left.value === null ? right() : left;
    // An input that the study may leave out.
    return left.kind === "number" && left.maybe === true && left.node.op === "input"
      ? number({ ...left.node, otherwise: asNumeric(right()) })
      : left;
  }
  const test = asCondition(left);
  const both = expression.operator === "&&";
  if (typeof test === "boolean") return test === both ? right() : left;
  if (left.kind !== "condition") return notAProgram("a number for a truth value");
  const { steps, found } = reading.branch(frame, right) ?? notAProgram("a truth value");
  if (!isConstant(found) && found.kind !== "condition") return notAProgram("a truth value beside a number");
  const other = asCondition(found);
  if (steps.length === 0 && typeof other !== "boolean")
    return condition({ op: both ? "both" : "either", left: test, right: other });
  const local = reading.local();
  reading.step({ step: "set", local, value: test });
  const set: Step = { step: "set", local, value: typeof other === "boolean" ? always(other) : other };
  const then = [...steps, set];
  reading.step({ step: "if", test, yes: both ? then : [], no: both ? [] : then });
  return condition({ op: "conditionLocal", local });
}

/** A truth value as a condition. */
const always = (value: boolean): Condition => {
  const zero = { op: "number", value: 0 } as const;
  return { op: value ? "eq" : "ne", left: zero, right: zero };
};

function conditional(reading: Reading, expression: ConditionalExpression, names: Names, frame: Frame): Known {
  const test = asCondition(reading.value(expression.test, names, frame));
  if (typeof test === "boolean")
    return reading.value(test ? expression.consequent : expression.alternate, names, frame);
  const [yes, no] = [expression.consequent, expression.alternate].map((arm) =>
    reading.branch(frame, () => reading.value(arm, names, frame)),
  );
  if (yes === null && no === null) return notAProgram("a choice of which neither way is part of a program");
  if (yes !== null && no !== null && yes!.steps.length === 0 && no!.steps.length === 0)
    return number({ op: "choose", test, yes: asNumeric(yes!.found), no: asNumeric(no!.found) });
  const local = reading.local();
  const steps = (arm: typeof yes): Step[] =>
    arm === null ? [{ step: "giveUp" }] : [...arm!.steps, { step: "set", local, value: asNumeric(arm!.found) }];
  reading.step({ step: "if", test, yes: steps(yes), no: steps(no) });
  return number({ op: "local", local });
}
