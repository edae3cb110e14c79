import { words } from "../later-words.ts";
import type { ColumnName } from "./columns.ts";

/** What the keys of the table do. */
export interface TableKeys {
  /** Keys of the rows on show, in their order. */
  readonly keys: () => readonly string[];
  readonly columns: () => readonly ColumnName[];
  readonly focus: (key: string, column: ColumnName) => void;
  readonly add: () => void;
  readonly remove: (key: string) => void;
  readonly move: (key: string, by: -1 | 1) => void;
  readonly fillFromAbove: (key: string, column: ColumnName) => void;
  readonly fillBelow: () => void;
  readonly open: (key: string) => void;
}

/** The keys as the page explains them. */
export const KEYS: readonly (readonly [keys: string, does: string])[] = [
  [words.help.keys.tab, words.studyTable.keys.tab],
  [words.help.keys.enter, words.studyTable.keys.enter],
  ["↑ ↓", words.studyTable.keys.rows],
  ["← →", words.studyTable.keys.cells],
  [words.studyTable.names.fill, words.studyTable.keys.fill],
  [words.studyTable.names.move, words.studyTable.keys.move],
  [words.studyTable.names.remove, words.studyTable.keys.remove],
  [words.studyTable.names.more, words.studyTable.keys.more],
  [words.studyTable.names.undo, words.studyTable.keys.undo],
  [words.studyTable.names.paste, words.studyTable.keys.paste],
  [words.studyTable.names.run, words.studyTable.keys.run],
];

/** Handles the keys that move between cells and change rows; Tab is left to the browser. */
export function keyHandler(table: TableKeys): (event: KeyboardEvent) => void {
  return (event) => {
    const target = event.target as HTMLInputElement | HTMLSelectElement;
    const { key, column } = target.dataset;
    if (key === undefined || column === undefined || event.isComposing) return;
    if (act(table, event, target, key, column as ColumnName)) {
      event.preventDefault();
      event.stopPropagation();
    }
  };
}

/** @returns whether the key meant something here */
function act(
  table: TableKeys,
  { key: pressed, ctrlKey, metaKey, shiftKey, altKey }: KeyboardEvent,
  target: HTMLInputElement | HTMLSelectElement,
  key: string,
  column: ColumnName,
): boolean {
  const control = ctrlKey || metaKey;
  const list = target instanceof HTMLSelectElement;
  const keys = table.keys();
  const i = keys.indexOf(key);
  const rowBeside = (by: -1 | 1): boolean => {
    const next = keys[i + by];
    if (next !== undefined) table.focus(next, column);
    return true;
  };
  switch (pressed) {
    case "Enter":
      if (control) return false;
      if (altKey) table.open(key);
      else if (shiftKey) rowBeside(-1);
      else if (i === keys.length - 1) table.add();
      else rowBeside(1);
      return true;
    case "ArrowUp":
    case "ArrowDown": {
      const by = pressed === "ArrowUp" ? -1 : 1;
      if (altKey) return false;
      if (control && shiftKey) table.move(key, by);
      else if (shiftKey || (list && !control)) return false;
      else rowBeside(by);
      return true;
    }
    case "ArrowLeft":
    case "ArrowRight": {
      const by = pressed === "ArrowLeft" ? -1 : 1;
      if (altKey || control || shiftKey || !(list || isAtEnd(target, by))) return false;
      const columns = table.columns();
      for (let j = columns.indexOf(column) + by; j >= 0 && j < columns.length; j += by) {
        const beside = document.getElementById(`cell-${key}-${columns[j]!}`) as HTMLInputElement | null;
        if (beside === null || beside.disabled) continue;
        table.focus(key, columns[j]!);
        break;
      }
      return true;
    }
    case "d":
    case "D":
      if (!control || altKey) return false;
      if (shiftKey) table.fillBelow();
      else table.fillFromAbove(key, column);
      return true;
    case "Delete":
      if (!(control && shiftKey)) return false;
      table.remove(key);
      return true;
    default:
      return false;
  }
}

/** Whether the caret stands where an arrow would no longer move it, or the whole text is selected. */
function isAtEnd({ selectionStart, selectionEnd, value }: HTMLInputElement, by: -1 | 1): boolean {
  if (value !== "" && selectionStart === 0 && selectionEnd === value.length) return true;
  return selectionStart === selectionEnd && selectionStart === (by < 0 ? 0 : value.length);
}
