import type { Model } from "../model.ts";

/** Functions of `Math` that ECMAScript or IEEE 754 fixes to the bit. */
const EXACT =
  /^(abs|ceil|clz32|floor|fround|imul|max|min|round|sign|sqrt|trunc|PI|E|LN2|LN10|LOG2E|LOG10E|SQRT2|SQRT1_2)$/;

/**
 * Whether a model keeps to operations with fixed bits, judged from the text of its function: no `Math.log` and the
 * like, no `**`. What the function calls elsewhere is not seen; the functions of `elementary` and the models shipped
 * here keep to it.
 */
export function usesFixedBits(model: Model): boolean {
  const text = String(model.evaluate).replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, "");
  if (text.includes("**")) return false;
  return [...text.matchAll(/\bMath\s*\.\s*(\w+)/g)].every(([, name]) => EXACT.test(name!));
}
