// A model in JavaScript is not checked by a compiler: what it leaves out or misspells is named, where it stands.
import { expect, test } from "vitest";
import { defineModel } from "../../engine/index.ts";

const quantity = { symbol: "m", meaning: "mass", unit: "kg" };
const whole = {
  id: "weight",
  title: "Weight",
  inputs: { mass: quantity },
  measurands: { weight: { symbol: "W", meaning: "weight", unit: "N" } },
  evaluate: ({ mass }: { mass: number }) => 9.81 * mass,
};
const define = (changes: object): unknown => defineModel({ ...whole, ...changes } as never);

test("a whole one is taken", () => {
  expect(define({})).toMatchObject({ id: "weight" });
});

test.each<[changes: object, message: RegExp]>([
  [{ title: undefined }, /model\.title: got nothing; expected a text/],
  [
    { inputs: { mass: { symbol: "m", meaning: "mass", unti: "kg" } } },
    /model\.inputs\.mass\.unit: got nothing; expected a text such as kg; 1 for none \(is unti meant\?\)/,
  ],
  [{ measurands: { weight: { ...quantity, symbol: 7 } } }, /model\.measurands\.weight\.symbol: got 7; expected a text/],
  [{ measurands: { weight: "N" } }, /model\.measurands\.weight: got "N"; expected an object with symbol/],
  [{ optionalInputs: { air: { symbol: "ρ" } } }, /model\.optionalInputs\.air\.meaning: got nothing/],
])("%o is refused with its place", (changes, message) => {
  expect(() => define(changes)).toThrow(message);
});
