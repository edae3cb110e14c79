import { beforeAll, describe, expect, test } from "vitest";
import type { Model } from "../../../engine/index.ts";
import { compared } from "./compared.ts";
import { moduleFrom, type LoadedModule } from "./paths.ts";
import { randomly, randomTrials } from "./random-models.ts";

const declared = (evaluate: string, more = ""): string => `
  defineModel({ id: "m", title: "m", inputs, measurands: { y: quantity("y") }, ${more} evaluate${evaluate} }),`;

/** Models of a, b and c that are programs, and what each is about. */
const PROGRAMS = {
  "a single expression": ": (x) => x.a - x.b * x.c",
  "a method": "(x) { return x.a / x.b; }",
  "a pattern of the inputs": ": ({ a, b, c = 0 }) => a + b + c",
  "an input by a name that is known": ": (x) => x[NAMES[1]] + x['c']",
  "an optional input that is left out": ": (x) => x.a + (x.left ?? 0) - (x.out ?? x.b)",
  "a measurand by name": ": (x) => ({ y: x.a, other: x.b })",
  "a function that is made by another": ": (x) => cubic(x.a) + quadratic(x.b)",
  "a constant made when the module loads": ": (x) => x.a * FACTOR + TABLE[3] + SETTINGS.inner.k",
  "an item of a table that the trial chooses": ": (x) => TABLE[Math.floor(Math.abs(x.a)) | 0] ?? 0",
  "an exception for some trials": ": (x) => { if (x.a > 1) throw new Error('beyond'); return x.a; }",
  "what is no program: Math.exp for some trials": ": (x) => (x.a > 1 ? Math.exp(x.a) : x.b)",
  "what is no program: a function that calls itself": ": (x) => down(x.a)",
  "several returns of an object": ": (x) => { const { p, q } = parts(x.a, x.b); return p - q; }",
  "a loop that a trial ends": ": (x) => newton(Math.abs(x.a) + 1)",
  "a loop with continue and break":
    ": (x) => { let s = 0; for (let i = 0; i < 8; i++) { if (i === 3) continue; if (s > x.a) break; s += TABLE[i & 3] + x.b; } return s; }",
  "items of a list that is written":
    ": (x) => { let s = 0; for (const v of [x.a, x.b, 2]) s = s * 0.5 + v; return s; }",
  "a value kept before it changes": ": (x) => { let t = x.a; const before = t; t = t * 2 + 1; return before - t; }",
  "an operand that the function changes": ": (x) => halved(x.a, 3) + x.b",
  "words of a double": ": (x) => { word[0] = x.a; const high = halves[1]; return (high >> 20) + (halves[0] >>> 1); }",
  "a choice between truth values":
    ": (x) => { const far = x.a > 1 && Math.abs(x.b) < 2; return far || x.c > 0 ? 1 : x.b; }",
  "undefined and number": ": (x) => given(x.a) + given(x.a, x.b)",
} as const;

/** Models that are none, with the reason. */
const NONE = {
  "a state that stays": ": (x) => { calls++; return x.a + calls; }",
  "an array that is written": ": (x) => { TABLE[0] = x.a; return TABLE[0]; }",
  "a function whose last bits are the engine's": ": (x) => Math.log(x.a)",
  "a power by operator": ": (x) => x.a ** 1.5",
  "a text": ": (x) => x.a + String(x.b).length",
  "a list that a trial makes": ": (x) => [x.a, x.b].map((v) => v * 2)[0]",
  "an optional input that is asked about": ": (x) => (x.left === undefined ? 1 : 2)",
  chance: ": (x) => x.a + Math.random()",
  "the clock": ": (x) => x.a + Date.now() * 0",
} as const;

const TEXT = `
import { defineModel } from "trialband";
const quantity = (symbol) => ({ symbol, meaning: symbol, unit: "1" });
const inputs = { a: quantity("a"), b: quantity("b"), c: quantity("c") };
const NAMES = ["a", "b"];
const TABLE = Float64Array.of(1, 2.5, -3, 4);
const FACTOR = [1, 2, 3].reduce((s, v) => s + v, 0) / 7;
const SETTINGS = { inner: { k: 0.125 } };
const word = new Float64Array(1);
const halves = new Int32Array(word.buffer);
let calls = 0;
function polynomial([c0 = 0, c1 = 0, c2 = 0, c3 = 0]) {
  if (c3 === 0) return (v) => c0 + v * (c1 + v * c2);
  return (v) => c0 + v * (c1 + v * (c2 + v * c3));
}
const cubic = polynomial([1, -2, 0.5, 3]);
const quadratic = polynomial([1, 2, 3]);
function parts(p, q) {
  if (p > q) return { p: p * 2, q };
  if (q > 1) return { p, q: -q };
  return { p: q, q: p };
}
function newton(v) {
  let r = v;
  for (;;) {
    const next = 0.5 * (r + v / r);
    if (!(next < r)) return r;
    r = next;
  }
}
function halved(v, times) {
  for (let i = 0; i < times; i++) v = v / 2 + i;
  return v;
}
const given = (p, q) => (q === undefined ? p : p * q);
function down(v) { return v > 1 ? down(v - 1) + 1 : v; }
const family = (k) => (x) => x.a * k;
const outside = { within: { evaluate: family(3) } };
export default [
${[...Object.values(PROGRAMS), ...Object.values(NONE)].map((evaluate) => declared(evaluate)).join("\n")}
  defineModel({ id: "m", title: "m", inputs, measurands: { y: quantity("y") }, evaluate: outside.within.evaluate }),
];
`;

describe("a model of one's own", () => {
  let loaded: LoadedModule;
  let models: readonly Model[];
  beforeAll(async () => {
    loaded = await moduleFrom(TEXT);
    models = loaded.exported["default"] as readonly Model[];
  });

  test.each(Object.keys(PROGRAMS).map((name, i) => ({ name, i })))("$name is part of a program", ({ name, i }) => {
    const model = models[i]!;
    const program = loaded.programOf(model);
    expect(program).not.toBeNull();
    const found = compared(model, program!, randomTrials(randomly(name), 201))!;
    expect(found.different).toBe(0);
    // What is no part of it is left to the plain path, and nothing else.
    const some = name.startsWith("what is no program") || name.includes("table that the trial");
    expect(found.left > 0).toBe(some);
    expect(found.told).toBe(true);
  });

  test.each(Object.keys(NONE).map((name, i) => ({ name, i: Object.keys(PROGRAMS).length + i })))(
    "$name is not",
    ({ i }) => expect(loaded.programOf(models[i]!)).toBeNull(),
  );

  test("names that a function was made with are not the module's", () =>
    expect(loaded.programOf(models.at(-1)!)).toBeNull());
});
