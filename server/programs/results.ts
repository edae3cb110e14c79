import type { Step } from "../../engine/internal.ts";
import type { Frame, Reading } from "./reading.ts";
import { asNumeric, isConstant, notAProgram, number, type Known } from "./values.ts";

/** Takes what a function returns. */
export function returned(reading: Reading, frame: Frame, value: Known): void {
  if (frame.depth === 0 && frame.result === null) {
    frame.result = value;
    return;
  }
  frame.result ??= placeFor(reading, value);
  for (const step of settings(frame.result, value)) reading.step(step);
  frame.left = true;
  if (frame.depth > 0) reading.step({ step: "leave", block: frame.block });
}

/** Locals for every number of a result; what is no number has to be the same for every `return`. */
function placeFor(reading: Reading, value: Known): Known {
  switch (value.kind) {
    case "constant":
      if (typeof value.value !== "number") return value;
      return number({ op: "local", local: reading.local() });
    case "number":
    case "whole":
      return number({ op: "local", local: reading.local() });
    case "fields":
      return {
        kind: "fields",
        fields: new Map([...value.fields].map(([name, of]) => [name, placeFor(reading, of)])),
      };
    case "list":
      return { kind: "list", items: value.items.map((of) => placeFor(reading, of)) };
    default:
      return notAProgram(`several returns, of a ${value.kind}`);
  }
}

/** Steps that bring a value to where the result is. */
function settings(place: Known, value: Known): Step[] {
  switch (place.kind) {
    case "number":
      return place.node.op === "local"
        ? [{ step: "set", local: place.node.local, value: asNumeric(value) }]
        : notAProgram("a result without a place");
    case "fields":
      if (value.kind !== "fields" || value.fields.size !== place.fields.size)
        return notAProgram("returns of two forms");
      return [...place.fields].flatMap(([name, of]) =>
        settings(of, value.fields.get(name) ?? notAProgram("returns of two forms")),
      );
    case "list":
      if (value.kind !== "list" || value.items.length !== place.items.length)
        return notAProgram("returns of two forms");
      return place.items.flatMap((of, i) => settings(of, value.items[i]!));
    default:
      return isConstant(place) && isConstant(value) && Object.is(place.value, value.value)
        ? []
        : notAProgram("returns of two forms");
  }
}
