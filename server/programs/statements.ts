import type {
  AssignmentExpression,
  ExpressionStatement,
  ForOfStatement,
  ForStatement,
  IfStatement,
  ReturnStatement,
  Statement,
  UpdateExpression,
  VariableDeclaration,
  WhileStatement,
} from "acorn";
import { assignedWithin } from "./assigned.ts";
import { binary } from "./operators.ts";
import type { Frame, Onward, Reading } from "./reading.ts";
import { returned } from "./results.ts";
import {
  asCondition,
  asNumeric,
  constant,
  isConstant,
  notAProgram,
  type Binding,
  type Known,
  type Names,
} from "./values.ts";

/** Turns of a loop that are written out one after the other. */
const MOST_TURNS = 1000;

const inside = (outer: Names): Names => ({ own: new Map(), outer });

/** Reads a statement. */
export function readStatement(
  reading: Reading,
  statement: Statement | VariableDeclaration,
  names: Names,
  frame: Frame,
): Onward {
  switch (statement.type) {
    case "EmptyStatement":
      return "on";
    case "VariableDeclaration":
      return declare(reading, statement, names, frame);
    case "FunctionDeclaration":
      names.own.set(statement.id.name, { kind: "value", value: { kind: "function", node: statement, names } });
      return "on";
    case "BlockStatement":
      return sequence(reading, statement.body, inside(names), frame);
    case "ExpressionStatement":
      return effect(reading, statement, names, frame);
    case "IfStatement":
      return choice(reading, statement, names, frame);
    case "ReturnStatement":
      return answer(reading, statement, names, frame);
    case "ThrowStatement":
      reading.step({ step: "giveUp" });
      return "left";
    case "ForStatement":
      return counted(reading, statement, inside(names), frame);
    case "WhileStatement":
      return open(reading, statement, names, frame);
    case "ForOfStatement":
      return each(reading, statement, names, frame);
    case "BreakStatement":
    case "ContinueStatement":
      return jump(reading, statement, frame);
    default:
      return notAProgram(statement.type);
  }
}

function sequence(reading: Reading, statements: readonly Statement[], names: Names, frame: Frame): Onward {
  // A function may be called above its declaration.
  for (const statement of statements)
    if (statement.type === "FunctionDeclaration") readStatement(reading, statement, names, frame);
  for (const statement of statements) if (reading.run(statement, names, frame) === "left") return "left";
  return "on";
}

function declare(reading: Reading, { declarations }: VariableDeclaration, names: Names, frame: Frame): Onward {
  for (const { id, init } of declarations) {
    reading.bind(id, init ? reading.value(init, names, frame) : constant(undefined), names, frame);
  }
  return "on";
}

function bindingOf(names: Names, name: string): Binding | undefined {
  for (let scope: Names | null = names; scope !== null; scope = scope.outer) {
    const found = scope.own.get(name);
    if (found !== undefined) return found;
  }
  return undefined;
}

function assign(reading: Reading, name: string, names: Names, frame: Frame, of: (before: Known) => Known): void {
  const found = bindingOf(names, name);
  if (found?.kind !== "variable" || found.frame !== frame) return notAProgram(`an assignment to ${name}`);
  const { local } = found;
  reading.step({ step: "set", local, value: asNumeric(of({ kind: "number", node: { op: "local", local } })) });
}

function effect(reading: Reading, { expression }: ExpressionStatement, names: Names, frame: Frame): Onward {
  if (expression.type === "AssignmentExpression") assignment(reading, expression, names, frame);
  else if (expression.type === "UpdateExpression") update(reading, expression, names, frame);
  else if (expression.type !== "Literal") notAProgram("an expression without a use");
  return "on";
}

function assignment(reading: Reading, expression: AssignmentExpression, names: Names, frame: Frame): void {
  const { left, operator } = expression;
  if (left.type === "Identifier")
    return assign(reading, left.name, names, frame, (before) => {
      const value = reading.value(expression.right, names, frame);
      return operator === "=" ? value : binary(operator.slice(0, -1), before, value);
    });
  if (left.type !== "MemberExpression" || left.object.type === "Super" || operator !== "=")
    return notAProgram("an assignment of another kind");
  // A double whose words are read: the scratch array of the elementary functions.
  const array = reading.value(left.object, names, frame);
  const key = left.property.type === "PrivateIdentifier" ? null : reading.value(left.property, names, frame);
  const scratch =
    left.computed &&
    isConstant(array) &&
    array.value instanceof Float64Array &&
    array.value.buffer.byteLength === 8 &&
    key !== null &&
    isConstant(key) &&
    key.value === 0;
  if (!scratch) return notAProgram("an assignment to an element");
  const value = reading.settled({ kind: "number", node: asNumeric(reading.value(expression.right, names, frame)) });
  reading.words.set((array.value as Float64Array).buffer, value);
}

function update(reading: Reading, { argument, operator }: UpdateExpression, names: Names, frame: Frame): void {
  if (argument.type !== "Identifier") return notAProgram("a counted element");
  assign(reading, argument.name, names, frame, (before) => binary(operator[0]!, before, constant(1)));
}

function choice(reading: Reading, statement: IfStatement, names: Names, frame: Frame): Onward {
  const { consequent, alternate } = statement;
  const test = asCondition(reading.value(statement.test, names, frame));
  const run = (way: Statement | null | undefined): Onward =>
    way === null || way === undefined ? "on" : reading.run(way, inside(names), frame);
  if (typeof test === "boolean") return run(test ? consequent : alternate);
  const ways = [consequent, alternate].map((way) => reading.branch(frame, () => run(way)));
  const [yes, no] = ways.map((way) => way?.steps ?? [{ step: "giveUp" } as const]);
  reading.step({ step: "if", test, yes: yes!, no: no! });
  if (ways.every((way) => way === null)) return notAProgram("a choice of which neither way is part of a program");
  return ways.every((way) => way === null || way.found === "left") ? "left" : "on";
}

function answer(reading: Reading, { argument }: ReturnStatement, names: Names, frame: Frame): Onward {
  returned(reading, frame, argument ? reading.value(argument, names, frame) : constant(undefined));
  return "left";
}

function jump(
  reading: Reading,
  { type, label }: Extract<Statement, { type: "BreakStatement" | "ContinueStatement" }>,
  frame: Frame,
): Onward {
  if (frame.loop === null || label) return notAProgram("a jump");
  reading.step({ step: "leave", block: type === "BreakStatement" ? frame.loop.end : frame.loop.next });
  return "left";
}

/** Runs a loop's body once, so that `continue` comes to its end. */
function turn(reading: Reading, body: Statement, names: Names, frame: Frame, end: number): void {
  const outer = frame.loop;
  const next = reading.block();
  frame.loop = { end, next };
  // A `return` within a turn is one of several, of which a trial decides.
  frame.depth += 1;
  try {
    const { steps } = reading.apart(() => reading.run(body, inside(names), frame));
    reading.step({ step: "block", block: next, body: steps });
  } finally {
    frame.loop = outer;
    frame.depth -= 1;
  }
}

/** A loop whose counter is known before it runs is written out; others are loops of the program. */
function counted(reading: Reading, statement: ForStatement, names: Names, frame: Frame): Onward {
  const { init, test, update: advance, body } = statement;
  const counter = init?.type === "VariableDeclaration" ? init.declarations[0] : undefined;
  const name = counter?.id.type === "Identifier" ? counter.id.name : null;
  const end = reading.block();
  if (
    name !== null &&
    counter!.init &&
    test &&
    advance?.type === "UpdateExpression" &&
    !assignedWithin(body).has(name)
  ) {
    const first = reading.value(counter!.init, names, frame);
    const others = (init as VariableDeclaration).declarations.slice(1);
    if (
      isConstant(first) &&
      typeof first.value === "number" &&
      others.every(({ id }) => id.type === "Identifier" && !frame.assigned.has(id.name))
    ) {
      for (const { id, init: value } of others)
        reading.bind(id, value ? reading.value(value, names, frame) : constant(undefined), names, frame);
      let i = first.value;
      const { steps } = reading.apart(() => {
        for (let turns = 0; ; turns++) {
          names.own.set(name, { kind: "value", value: constant(i) });
          const go = asCondition(reading.value(test, names, frame));
          if (typeof go !== "boolean") return notAProgram("a loop that a trial ends");
          if (!go) return;
          if (turns === MOST_TURNS) return notAProgram("a long loop");
          turn(reading, body, names, frame, end);
          i += advance.operator === "++" ? 1 : -1;
        }
      });
      reading.step({ step: "block", block: end, body: steps });
      return "on";
    }
  }
  if (init?.type === "VariableDeclaration") declare(reading, init, names, frame);
  else if (init) return notAProgram("a loop of another kind");
  repeat(reading, test ?? null, body, names, frame, end, () => {
    if (advance) effect(reading, { expression: advance } as ExpressionStatement, names, frame);
  });
  return "on";
}

const open = (reading: Reading, { test, body }: WhileStatement, names: Names, frame: Frame): Onward => {
  repeat(reading, test, body, names, frame, reading.block(), () => undefined);
  return "on";
};

function repeat(
  reading: Reading,
  test: WhileStatement["test"] | null,
  body: Statement,
  names: Names,
  frame: Frame,
  end: number,
  advance: () => void,
): void {
  // What is in a scratch array differs from turn to turn.
  reading.words.clear();
  const { steps } = reading.apart(() => {
    const go = test === null ? true : asCondition(reading.value(test, names, frame));
    if (go === false) reading.step({ step: "leave", block: end });
    else if (go !== true) reading.step({ step: "if", test: go, yes: [], no: [{ step: "leave", block: end }] });
    turn(reading, body, names, frame, end);
    advance();
  });
  reading.words.clear();
  reading.step({ step: "block", block: end, body: [{ step: "repeat", block: reading.block(), body: steps }] });
}

/** The items of a list that is known, one after the other. */
function each(reading: Reading, { left, right, body }: ForOfStatement, names: Names, frame: Frame): Onward {
  const of = reading.value(right, names, frame);
  const items =
    of.kind === "list"
      ? of.items
      : isConstant(of) && (Array.isArray(of.value) || of.value instanceof Float64Array)
        ? Array.from(of.value as ArrayLike<unknown>, constant)
        : notAProgram("items that a trial decides");
  if (left.type !== "VariableDeclaration" || items.length > MOST_TURNS) return notAProgram("a loop of another kind");
  const end = reading.block();
  const { steps } = reading.apart(() => {
    for (const item of items) {
      const own = inside(names);
      reading.bind(left.declarations[0]!.id, item, own, frame);
      turn(reading, body, own, frame, end);
    }
  });
  reading.step({ step: "block", block: end, body: steps });
  return "on";
}
