import { refuse } from "../../engine/index.ts";
import { readBySchema } from "../../engine/internal.ts";
import { evaluation } from "../equation/evaluate.ts";
import { parseEquations } from "../equation/parse.ts";
import { quantitiesOf } from "../equation/tree.ts";
import { resistanceRatio } from "../platinum/iec60751.ts";
import { dependentFigureSchema } from "./document.ts";

/** Values of what is swept at one point: t, and s of a grid. */
export interface Swept {
  readonly t: number;
  readonly s: number | null;
}

/** A figure as a function of what is swept. */
type FigureAt = (at: Swept) => number;

/**
 * A figure of a statement that may depend on what is swept: a number, a table with straight lines between its pairs, an
 * expression in t and s, or the resistance by IEC 60751. `loadEquationReader` comes first.
 *
 * @throws {InputError} from here or from the function: what cannot be read, a value beyond a table, no finite number
 */
export function dependentFigure(stated: unknown, place: string): FigureAt {
  const figure = readBySchema(dependentFigureSchema, stated, place);
  if (typeof figure === "number") return () => figure;
  if ("table" in figure) return tableFigure(figure, place);
  if ("resistance" in figure) return ({ t }) => figure.resistance * resistanceRatio(t);
  return functionFigure(figure.function, place);
}

function tableFigure(
  { table, along }: { readonly table: readonly (readonly [number, number])[]; readonly along: "first" | "second" },
  place: string,
): FigureAt {
  table.forEach(([at], i) => {
    if (i > 0 && at <= table[i - 1]![0])
      refuse(`${place}.table.${i}`, at, `a value greater than the one before it, ${table[i - 1]![0]}`);
  });
  const [first, last] = [table[0]![0], table.at(-1)![0]];
  return ({ t, s }) => {
    const at = along === "first" ? t : (s ?? refuse(`${place}.along`, "second", "first: one quantity is swept"));
    if (at < first || at > last)
      return refuse(`${place}.table`, `${first} to ${last}`, `pairs that reach ${at}, which is swept`);
    const above = table.findIndex(([x]) => x >= at);
    const [x1, y1] = table[above]!;
    if (x1 === at) return y1;
    const [x0, y0] = table[above - 1]!;
    return y0 + ((at - x0) / (x1 - x0)) * (y1 - y0);
  };
}

function functionFigure(text: string, place: string): FigureAt {
  const parsed = parseEquations(`y = ${text}`);
  if (!parsed.ok) {
    const { got, expected } = parsed.problems[0]!;
    return refuse(`${place}.function`, got, expected);
  }
  const { expression } = parsed.equations[0]!;
  if (parsed.equations.length > 1) return refuse(`${place}.function`, text, "one expression");
  const names = [...quantitiesOf(expression).keys()];
  const unknown = names.find((name) => name !== "t" && name !== "s");
  if (unknown !== undefined)
    return refuse(`${place}.function`, unknown, "t, the first swept quantity, or s, the second");
  const value = evaluation(expression);
  return ({ t, s }) => {
    if (s === null && names.includes("s")) return refuse(`${place}.function`, "s", "t alone: one quantity is swept");
    const found = value({ t, s: s ?? 0 });
    return Number.isFinite(found)
      ? found
      : refuse(`${place}.function`, found, `a finite number at t = ${t}${s === null ? "" : `, s = ${s}`}`);
  };
}
