import type { Check } from "../../models/index.ts";
import { en } from "../present/messages/en/index.ts";
import { english } from "../present/numbers.ts";
import { labelText } from "../present/pictures/label.ts";
import type { Table } from "../present/tables/table.ts";
import { presentedLines } from "./presented.ts";
import type { stylesFor } from "./style.ts";
import { tableLines, wrap, type Column } from "./table.ts";

/** How lines are laid out: colours, and columns of the terminal. */
export interface Layout {
  readonly styles: ReturnType<typeof stylesFor>;
  readonly width: number;
}

/** A difference of temperature in mK, to the microkelvin. */
export const milli = (kelvin: number): string => english.fixed(1000 * kelvin, 3);

/** A number with at most `digits` significant digits, without zeros at its end. */
export const plain = (value: number, digits = 4): string => english.plain(Number(value.toPrecision(digits)));

const words = en.terminal;

/** Spaces before what stands under a heading. */
const INDENT = 3;

/** A heading over indented lines; nothing if there are no lines. */
export const part = ({ styles, width }: Layout, heading: string, lines: readonly string[]): string[] =>
  lines.length === 0
    ? []
    : ["", styles.bold(wrap(heading, width)), ...lines.map((line) => `${" ".repeat(INDENT)}${line}`)];

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
          layout.width - INDENT,
        ),
      );

/** A table of viewer/present under its caption; nothing if it has no rows. */
export const presentedPart = (layout: Layout, table: Table): string[] =>
  table.rows.length === 0 ? [] : part(layout, labelText(table.caption), presentedLines(table, layout.width - INDENT));

/** The checks, failed ones first. */
export function checkPart(layout: Layout, checks: readonly Check[]): string[] {
  const { styles, width } = layout;
  const lines = checks
    // Two parts of a record may check the same thing.
    .filter(({ check, found }, i) => checks.findIndex((other) => other.check === check && other.found === found) === i)
    .toSorted((a, b) => Number(a.passed) - Number(b.passed))
    .flatMap(({ check, passed, found }) => {
      const mark = passed ? words.met.padEnd(words.notMet.length) : styles.bold(words.notMet);
      const [first, ...rest] = wrap(`${check}: ${found}`, width - 14).split("\n");
      return [`${mark}  ${first}`, ...rest.map((line) => `         ${line}`)];
    });
  return part(layout, en.survey.checksHead, lines);
}

export const listPart = (layout: Layout, heading: string, sentences: readonly string[]): string[] =>
  part(
    layout,
    heading,
    sentences.flatMap((sentence) => wrap(`- ${sentence}`, layout.width - 5, "  ").split("\n")),
  );
