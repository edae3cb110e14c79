import type { FunctionList } from "../../api/equations.ts";
import { html } from "../draw/node.ts";

/** The functions and constants that an equation may use, folded away. */
export const functionList = (functions: FunctionList, id: string): HTMLElement =>
  html(
    "details",
    { class: "fold", id },
    html("summary", { id: `${id}-summary` }, "Functions, operators and constants"),
    html(
      "dl",
      { class: "functions" },
      [...SIGNS, ...functions.map(({ usage, meaning }) => [usage, meaning] as const)].map(([usage, meaning]) =>
        html("div", {}, html("dt", {}, html("code", {}, usage)), html("dd", {}, meaning)),
      ),
    ),
  );

const SIGNS: readonly (readonly [string, string])[] = [
  ["a + b, a − b, a · b, a / b", "sums, products and quotients; + - * / of the keyboard do as well"],
  ["a^b, a², a⁻¹", "powers, which bind before a sign: −a² is −(a²)"],
  ["π", "the number π"],
];
