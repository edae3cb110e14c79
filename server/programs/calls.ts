import type { Pattern, Statement } from "acorn";
import { assignedIn } from "./assigned.ts";
import { field, keyOf } from "./expressions.ts";
import type { Frame, Reading } from "./reading.ts";
import {
  asNumeric,
  constant,
  isConstant,
  notAProgram,
  numberNode,
  type FunctionNode,
  type Known,
  type Names,
} from "./values.ts";

/** Calls within calls. */
const MOST_OPEN = 40;

/** Reads a function in place, with these operands. */
export function readCall(reading: Reading, node: FunctionNode, names: Names, operands: readonly Known[]): Known {
  if (node.async || node.generator) return notAProgram("a function of another kind");
  if (reading.open.includes(node)) return notAProgram("a function that calls itself");
  if (reading.open.length === MOST_OPEN) return notAProgram("too many calls within calls");
  const own: Names = { own: new Map(), outer: names };
  const frame: Frame = {
    assigned: assignedIn(node),
    block: reading.block(),
    left: false,
    result: null,
    depth: 0,
    loop: null,
  };
  reading.open.push(node);
  const { steps } = reading.apart(() => {
    node.params.forEach((parameter, i) => reading.bind(parameter, operands[i] ?? constant(undefined), own, frame));
    if (node.body.type !== "BlockStatement") frame.result = reading.value(node.body, own, frame);
    else if (reading.run(node.body as Statement, own, frame) === "on") endOf(reading, frame);
  });
  reading.open.pop();
  if (frame.left) reading.step({ step: "block", block: frame.block, body: steps });
  else for (const step of steps) reading.step(step);
  return frame.result ?? notAProgram("a function that returns nothing");
}

/** Where a function ends without a `return`: nothing, which is no number. */
function endOf(reading: Reading, frame: Frame): void {
  if (frame.result === null) frame.result = constant(undefined);
  else reading.step({ step: "giveUp" });
}

/** Gives the names of a pattern their values. */
export function bindPattern(reading: Reading, pattern: Pattern, value: Known, names: Names, frame: Frame): void {
  switch (pattern.type) {
    case "Identifier":
      if (frame.assigned.has(pattern.name)) variable(reading, pattern.name, value, names, frame);
      else names.own.set(pattern.name, { kind: "value", value: reading.settled(value) });
      return;
    case "AssignmentPattern":
      return reading.bind(
        pattern.left,
        isConstant(value) && value.value === undefined ? reading.value(pattern.right, names, frame) : value,
        names,
        frame,
      );
    case "ObjectPattern":
      for (const property of pattern.properties) {
        if (property.type === "RestElement") return notAProgram("the rest of an object");
        reading.bind(property.value, field(reading, value, keyOf(property.key, property.computed)), names, frame);
      }
      return;
    case "ArrayPattern":
      pattern.elements.forEach((element, i) => {
        if (element !== null) reading.bind(element, field(reading, value, i), names, frame);
      });
      return;
    default:
      return notAProgram("a pattern");
  }
}

/** A number that is assigned to later: NaN, as nothing is in arithmetic, until it is. */
function variable(reading: Reading, name: string, value: Known, names: Names, frame: Frame): void {
  const local = reading.local();
  const nothing = isConstant(value) && value.value === undefined;
  reading.variables.add(local);
  reading.step({ step: "set", local, value: nothing ? numberNode(Number.NaN) : asNumeric(value) });
  names.own.set(name, { kind: "variable", local, frame });
}
