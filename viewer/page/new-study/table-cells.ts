import { words as pageWords } from "../later-words.ts";
import { html, type Child } from "../draw/node.ts";
import type { Column } from "./columns.ts";
import type { Kind } from "./fields.ts";
import { FIRST_HOWS, FURTHER_HOWS, HOWS, HOW_CELLS, howOf, type HowCell, type HowCellName } from "./hows.ts";
import type { Row } from "./row.ts";

export type CellControl = HTMLInputElement | HTMLSelectElement;

export const cellId = (key: string, column: string): string => `cell-${key}-${column}`;

/** What a column asks of a row: a field of the study, or nothing (`null`) for how that quantity is known. */
export function askedOf(column: Column, row: Row, asksTemperature: boolean): HowCell | null {
  const plain = (field: string): HowCell => ({ field, short: "", words: column.words });
  switch (column.name) {
    case "value":
    case "first":
    case "second":
    case "nu": {
      const how = howOf(row.how);
      const cell = how?.[column.name];
      if (cell !== undefined) return cell;
      // Before it is said how, the usual cells take what is typed.
      return how === undefined && column.name !== "nu"
        ? { field: `held-${column.name}`, short: "", words: column.words }
        : null;
    }
    case "ofTemperature":
      return asksTemperature ? plain("ofTemperature") : null;
    default:
      return plain(column.name);
  }
}

export const isHowCell = (name: string): name is HowCellName => HOW_CELLS.some((cell) => cell === name);

/** The control of a cell, without what depends on the other cells of its row. */
export function cellControl(column: Column, optional: boolean, kinds: readonly Kind[]): CellControl {
  switch (column.name) {
    case "how":
      return html("select", {}, howOptions(optional, kinds));
    case "ofTemperature":
      return html(
        "select",
        {},
        html("option", { value: "" }, pageWords.studyTable.choose),
        html("option", { value: "difference" }, pageWords.studyTable.difference),
        html("option", { value: "temperature" }, pageWords.studyTable.temperature),
      );
    default:
      return html("input", { type: "text", autocomplete: "off", spellcheck: "false" });
  }
}

/** The ways to choose from: what is used most, then all others; a kind that no way covers stands under its own name. */
export function howOptions(optional: boolean, kinds: readonly Kind[]): Child {
  const option = (id: string, words: string): HTMLElement => html("option", { value: id }, words);
  const covered = new Set<string>(HOWS.flatMap(({ kind, withNu }) => [kind, withNu ?? kind]));
  const others = kinds.filter(({ name }) => !covered.has(name));
  return [
    option("", optional ? pageWords.studyTable.leftOut : pageWords.studyTable.choose),
    FIRST_HOWS.map(({ id, words }) => option(id, words)),
    html(
      "optgroup",
      { label: pageWords.studyTable.moreWays },
      FURTHER_HOWS.map(({ id, words }) => option(id, words)),
      others.map(({ name }) => option(name, name.replaceAll("-", " "))),
    ),
  ];
}
