import { words } from "../later-words.ts";
import type { FunctionList } from "../../api/equations.ts";
import { html } from "../draw/node.ts";

/** The functions and constants that an equation may use, folded away. */
export const functionList = (functions: FunctionList, id: string): HTMLElement =>
  html(
    "details",
    { class: "fold", id },
    html("summary", { id: `${id}-summary` }, words.equation.functions),
    html(
      "dl",
      { class: "functions" },
      [...SIGNS, ...functions.map(({ usage, meaning }) => [usage, meaning] as const)].map(([usage, meaning]) =>
        html("div", {}, html("dt", {}, html("code", {}, usage)), html("dd", {}, meaning)),
      ),
    ),
  );

const SIGNS: readonly (readonly [string, string])[] = [
  ["a + b, a − b, a · b, a / b", words.equation.sums],
  ["a^b, a², a⁻¹", words.equation.powers],
  ["π", words.equation.pi],
];
