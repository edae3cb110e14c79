import { toDecimals } from "../../engine/index.ts";
import type { Check } from "../../models/index.ts";
import type { stylesFor } from "./style.ts";
import { tableLines, wrap, type Column } from "./table.ts";

/** How lines are laid out: colours, and columns of the terminal. */
export interface Layout {
  readonly styles: ReturnType<typeof stylesFor>;
  readonly width: number;
}

/** A difference of temperature in mK, to the microkelvin. */
export const milli = (kelvin: number): string => toDecimals(1000 * kelvin, 3);

/** A number to as many digits as tell it apart. */
export const plain = (value: number, digits = 4): string =>
  Number.isFinite(value) ? String(Number(value.toPrecision(digits))) : "∞";

/** A heading with its lines below it, set in; nothing where there are none. */
export const part = ({ styles }: Layout, heading: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ["", styles.bold(heading), ...lines.map((line) => `   ${line}`)];

export const tablePart = (
  layout: Layout,
  heading: string,
  columns: readonly (readonly [string, Column["align"]])[],
  rows: readonly (readonly string[])[],
): string[] =>
  rows.length === 0
    ? []
    : part(
        layout,
        heading,
        tableLines(
          columns.map(([title, align]) => ({ heading: title, align })),
          rows,
        ),
      );

/** What was checked, what failed first to catch the eye. */
export function checkPart(layout: Layout, checks: readonly Check[]): string[] {
  const { styles, width } = layout;
  const lines = checks
    // Two parts of a record may check the same thing.
    .filter(({ check, found }, i) => checks.findIndex((other) => other.check === check && other.found === found) === i)
    .toSorted((a, b) => Number(a.passed) - Number(b.passed))
    .flatMap(({ check, passed, found }) => {
      const mark = passed ? "met    " : styles.bold("NOT MET");
      const [first, ...rest] = wrap(`${check}: ${found}`, width - 14).split("\n");
      return [`${mark}  ${first}`, ...rest.map((line) => `         ${line}`)];
    });
  return part(layout, "What was checked", lines);
}

export const listPart = (layout: Layout, heading: string, sentences: readonly string[]): string[] =>
  part(
    layout,
    heading,
    sentences.flatMap((sentence) => wrap(`- ${sentence}`, layout.width - 5, "  ").split("\n")),
  );
