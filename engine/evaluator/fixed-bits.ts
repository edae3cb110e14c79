import type { Model } from "../model.ts";

/** Functions of `Math` whose results ECMAScript or IEEE 754 defines exactly. */
const EXACT =
  /^(abs|ceil|clz32|floor|fround|imul|max|min|round|sign|sqrt|trunc|PI|E|LN2|LN10|LOG2E|LOG10E|SQRT2|SQRT1_2)$/;

/**
 * Whether a model uses only operations with exactly defined results, judged from the text of its function: no
 * `Math.log` and the like, no `**`. Functions that it calls are not examined; those of `elementary` and the models of
 * this repository comply.
 */
export function usesFixedBits(model: Model): boolean {
  const text = String(model.evaluate).replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, "");
  if (text.includes("**")) return false;
  return [...text.matchAll(/\bMath\s*\.\s*(\w+)/g)].every(([, name]) => EXACT.test(name!));
}
