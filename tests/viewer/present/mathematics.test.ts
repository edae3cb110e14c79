import { describe, expect, test } from "vitest";
import { loadEquationReader, readTypedEquation } from "../../../models/index.ts";
import { mathematics, type MathElement } from "../../../viewer/present/mathematics.ts";

await loadEquationReader();

/** Elements in short: what stands between tags, with the tags that change its place or its slope. */
function inShort({ tag, attributes = {}, children }: MathElement): string {
  const [first, ...others] = children.map((child) => (typeof child === "string" ? child : inShort(child)));
  switch (tag) {
    case "msub":
      return `${first}_[${others[0]}]`;
    case "msup":
      return `${first}^[${others[0]}]`;
    case "mfrac":
      return `[${first}/${others[0]}]`;
    case "msqrt":
      return `√[${first}]`;
    case "mroot":
      return `root ${others[0]}[${first}]`;
    case "mi":
      // One letter is italic unless it is said to be upright; a word of several is upright.
      return attributes["mathvariant"] === "normal" || [...first!].length > 1 ? `<${first}>` : first!;
    default:
      return [first, ...others].join("");
  }
}

async function set(equation: string, symbols: Record<string, string> = {}, decimalSign = "."): Promise<string> {
  const { read } = await readTypedEquation({ equation }, "");
  return mathematics(read!.equations, (name) => symbols[name] ?? name, read!.texts, decimalSign)
    .map(inShort)
    .join("; ");
}

describe("equations as mathematics", () => {
  test.each([
    // ISO 80000-1:2022, 7.3 (quantities italic, descriptive subscripts upright) and ISO 80000-2 (functions upright).
    ["e = t(R_X, R_0) − t_S", "e=t\u2061(R_[X],R_[0])−t_[S]"],
    ["y = exp(a)·sin(b)", "y=<exp>\u2061(a)·<sin>\u2061(b)"],
    ["y = a/b·c", "y=[a/b]·c"],
    ["y = a/(b·c)", "y=[a/b·c]"],
    ["y = (a + b)/(c − d)", "y=[a+b/c−d]"],
    ["y = (a/b)^2", "y=([a/b])^[2]"],
    ["y = (a + b)²", "y=(a+b)^[2]"],
    ["y = −a^2", "y=−a^[2]"],
    ["y = −(a·b)", "y=−(a·b)"],
    ["y = −(a/b)", "y=−[a/b]"],
    ["y = a^(−b)", "y=a^[−b]"],
    ["y = a^b^c", "y=a^[b^[c]]"],
    ["y = √(a² + b²)", "y=√[a^[2]+b^[2]]"],
    ["y = sqrt(a)^3", "y=(√[a])^[3]"],
    ["y = cbrt(a)", "y=root 3[a]"],
    ["y = |a − b|", "y=|a−b|"],
    ["y = a − (b − c)", "y=a−(b−c)"],
    ["y = a·(b + c)", "y=a·(b+c)"],
    ["y = 2.5e-7·a + π·b", "y=2.5·10^[−7]·a+<π>·b"],
    ["y = W_r(a)", "y=W_[r]\u2061(a)"],
    ["d = a − b; y = d/b", "d=a−b; y=[d/b]"],
  ])("%s", async (equation, expected) => expect(await set(equation)).toBe(expected));

  test("a symbol of several letters is italic letter by letter, primes stand after the subscript", async () => {
    expect(await set("y = dt", { dt: "δt_{ax}′" })).toBe("y=δt_[ax]′");
  });

  test("with a decimal comma, values are parted by semicolons", async () => {
    expect(await set("y = max(1.5, a)", {}, ",")).toBe("y=<max>\u2061(1,5;a)");
  });

  test("each line has its text for those who cannot see it", async () => {
    const { read } = await readTypedEquation({ equation: "d = a − b; y = d/b" }, "");
    const lines = mathematics(read!.equations, (name) => name, read!.texts);
    expect(lines.map(({ attributes }) => attributes?.["alttext"])).toEqual(["d = a − b", "y = d / b"]);
  });
});
