import type { Grammar } from "ohm-js";

/**
 * Plain algebra as it is written in a budget. A sign binds less than a power (−x² is −(x²)), a power is taken from the
 * right (a^b^c is a^(b^c)), and a product needs its sign: two names side by side are one mistake, not a product.
 */
const TEXT = String.raw`
Algebra {
  Lines = separator* ListOf<Line, separators> separator*
  Line = name "=" Sum
  separators = (spaceOrTab* separator)+
  separator = ";" | "\n" | "\r"
  spaceOrTab = " " | "\t"

  Sum = Product ((plus | minus) Product)*
  Product = Signed ((times | over) Signed)*
  Signed = minus Signed -- negative
         | plus Signed -- positive
         | Power
  Power = Postfix "^" Signed -- raised
        | Postfix
  Postfix = Primary superscript -- superscript
          | Primary
  Primary = "(" Sum ")" -- bracket
          | "|" Sum "|" -- absolute
          | "√" Primary -- root
          | name "(" ListOf<Sum, ","> ")" -- call
          | number
          | name

  plus = "+"
  minus = "-" | "−" | "–"
  times = "*" | "·" | "⋅" | "×"
  over = "/" | "÷"
  superscript = "⁻"? ("⁰" | "¹" | "²" | "³" | "⁴" | "⁵" | "⁶" | "⁷" | "⁸" | "⁹")+
  number = digit+ ("." digit+)? exponent? ~nameStart
  exponent = ("e" | "E") ("+" | "-" | "−")? digit+
  name = nameStart namePart* "′"*
  nameStart = letter
  namePart = subscript | letter | digit | "_" | "₀".."₉"
  subscript = "_{" (~"}" ~"\n" any)+ "}"
  space := " " | "\t" | " " | " "
}`;

let library: typeof import("ohm-js") | undefined;
let made: Grammar | undefined;

/**
 * Loads the library that reads equations. It takes a quarter of a command's start, so that only a process that meets an
 * equation loads it.
 */
export async function loadEquationReader(): Promise<void> {
  library ??= await import("ohm-js");
}

/** The grammar of typed equations, made when it is first needed. */
export function algebra(): Grammar {
  if (library === undefined) throw new Error("Before the first equation is read, await loadEquationReader().");
  return (made ??= library.grammar(TEXT));
}
