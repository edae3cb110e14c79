import { emitCondition, emitNumeric, emitTogether, emitWhole, type Emission } from "./emit-values.ts";
import type { Condition, Numeric, Step, Value, Whole } from "./program.ts";

const WHOLE: ReadonlySet<string> = new Set<Whole["op"]>([
  "whole",
  "wholeLocal",
  "toWhole",
  "index",
  "word",
  "and",
  "or",
  "xor",
  "plus",
  "minus",
  "shl",
  "shr",
  "shru",
]);
const CONDITION: ReadonlySet<string> = new Set<Condition["op"]>([
  "conditionLocal",
  "eq",
  "ne",
  "lt",
  "le",
  "gt",
  "ge",
  "same",
  "both",
  "either",
  "not",
]);

function emitValue(to: Emission, value: Value): void {
  if (WHOLE.has(value.op)) emitWhole(to, value as Whole);
  else if (CONDITION.has(value.op)) emitCondition(to, value as Condition);
  else emitNumeric(to, value as Numeric);
}

/** Takes the steps one after the other. */
export function emitSteps(to: Emission, steps: readonly Step[]): void {
  for (const step of steps) emitStep(to, step);
}

function emitStep(to: Emission, step: Step): void {
  const { code } = to;
  switch (step.step) {
    case "set":
      emitValue(to, step.value);
      return code.set(to.locals[step.local]!);
    case "giveUp":
      return code.leave(to.giveUp);
    case "leave":
      return code.leave(to.blocks.get(step.block)!);
    case "if":
      emitTogether(to, step.test);
      code.open("if");
      emitSteps(to, step.yes);
      if (step.no.length > 0) {
        code.otherwise();
        emitSteps(to, step.no);
      }
      return code.close();
    case "block":
      to.blocks.set(step.block, code.open("block"));
      emitSteps(to, step.body);
      return code.close();
    case "repeat": {
      const from = code.open("loop");
      emitSteps(to, step.body);
      code.leave(from);
      return code.close();
    }
  }
}
