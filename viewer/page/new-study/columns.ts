import { words as pageWords } from "../later-words.ts";
import { unitName } from "../../../models/evaluation/text/unit-name.ts";
import { howFromWords, howOf, HOWS, HOW_CELLS, type HowCellName } from "./hows.ts";
import { isPart, relativeIn } from "./relative.ts";
import { withHow, type OfTemperature, type Row } from "./row.ts";
import { figureWithUnit } from "./typed.ts";

export type ColumnName =
  | "symbol"
  | "meaning"
  | "value"
  | "unit"
  | "ofTemperature"
  | "how"
  | "first"
  | "second"
  | "nu"
  | "sensitivity"
  | "source";

/** A column of the table: how it is headed, and how a text stands in a row. */
export interface Column {
  readonly name: ColumnName;
  readonly title: string;
  /** In full, for a reader who hears the table. */
  readonly words: string;
  readonly get: (row: Row) => string;
  /** The row with a text typed into its cell. */
  readonly set: (row: Row, text: string) => Row;
  /** The row with the cell of a spreadsheet put in. */
  readonly paste: (row: Row, text: string) => Row;
  /** The cell as a spreadsheet takes it. */
  readonly copy: (row: Row) => string;
}

const text = (name: "symbol" | "meaning" | "sensitivity", title: string, words: string): Column => {
  const set = (row: Row, typed: string): Row => ({ ...row, [name]: typed });
  return { name, title, words, get: (row) => row[name], set, paste: set, copy: (row) => row[name] };
};

const withField = (row: Row, field: string, typed: string): Row => ({
  ...row,
  fields: { ...row.fields, [field]: typed },
});

const ofHow = (name: HowCellName, title: string, words: string): Column => {
  const get = (row: Row): string => {
    const cell = howOf(row.how)?.[name];
    return cell === undefined ? (row.fields[held(name)] ?? "") : (row.fields[cell.field] ?? "");
  };
  const set = (row: Row, typed: string): Row => withField(row, howOf(row.how)?.[name]?.field ?? held(name), typed);
  return {
    name,
    title,
    words,
    get,
    set,
    paste: (row, typed) => {
      if (name === "nu" && /^(∞|inf|infinity|[-–—])$/i.test(typed.trim())) return set(row, "");
      const found = figureWithUnit(typed);
      if (found === null) return set(row, typed);
      const { figure, unit } = found;
      const own = unitName(unit);
      // A percentage beside an uncertainty is a part of the estimate, unless the row is in per cent itself.
      const how = howOf(row.how);
      const takesPart = how === undefined ? name === "first" : relativeIn(how[name]?.field ?? "", typed) !== null;
      if (isPart(own) && unitName(row.unit) !== own && takesPart) return set(row, typed.trim());
      // A unit beside a figure is the row's, unless the row has another: then the figure stays as it was written.
      if (unit === "" || unitName(row.unit) === own) return set(row, figure);
      return row.unit === "" ? set({ ...row, unit: own }, figure) : set(row, typed);
    },
    copy: get,
  };
};
/** Where a figure waits that was typed before it was said how the quantity is known. */
const held = (name: HowCellName): string => `held-${name}`;

/** A row whose figures no longer wait. */
export function withHeld(row: Row): Row {
  const how = howOf(row.how);
  if (how === undefined) return row;
  const fields: Record<string, string> = { ...row.fields };
  for (const name of HOW_CELLS) {
    const [waiting, field] = [fields[held(name)], how[name]?.field];
    if (waiting === undefined || field === undefined) continue;
    if ((fields[field] ?? "") === "") fields[field] = waiting;
    delete fields[held(name)];
  }
  return { ...row, fields };
}

const TEMPERATURE_WORDS: readonly (readonly [RegExp, OfTemperature])[] = [
  [/^(d|Δ|δ)/iu, "difference"],
  [/^t/i, "temperature"],
];

export const COLUMNS: readonly Column[] = [
  text("symbol", pageWords.studyTable.columns.symbol, pageWords.studyTable.said.symbol),
  text("meaning", pageWords.studyTable.columns.quantity, pageWords.studyTable.said.quantity),
  ofHow("value", pageWords.studyTable.columns.value, pageWords.studyTable.said.value),
  {
    name: "unit",
    title: pageWords.studyTable.columns.unit,
    words: pageWords.studyTable.said.unit,
    get: (row) => row.unit,
    set: (row, typed) => ({ ...row, unit: typed }),
    paste: (row, typed) => ({ ...row, unit: unitName(typed) }),
    copy: (row) => row.unit,
  },
  {
    name: "ofTemperature",
    title: pageWords.studyTable.columns.kind,
    words: pageWords.studyTable.said.kind,
    get: (row) => row.ofTemperature,
    set: (row, typed) => ({ ...row, ofTemperature: typed as OfTemperature }),
    paste: (row, typed) => ({
      ...row,
      ofTemperature: TEMPERATURE_WORDS.find(([pattern]) => pattern.test(typed.trim()))?.[1] ?? "",
    }),
    copy: (row) => row.ofTemperature,
  },
  {
    name: "how",
    title: pageWords.studyTable.columns.how,
    words: pageWords.studyTable.said.how,
    get: (row) => row.how,
    set: (row, id) => withHeld(withHow(row, id)),
    paste: (row, typed) => {
      const found = howFromWords(typed);
      if (found === null) return row;
      const known = withHeld(withHow(row, found.how));
      const factor = howOf(found.how)?.second?.field;
      return found.k === null || factor !== "coverageFactor" || (known.fields[factor] ?? "") !== ""
        ? known
        : withField(known, factor, found.k);
    },
    copy: (row) => howOf(row.how)?.words ?? row.how,
  },
  ofHow("first", pageWords.studyTable.columns.figure, pageWords.studyTable.said.figure),
  ofHow("second", pageWords.studyTable.columns.with, pageWords.studyTable.said.with),
  ofHow("nu", "ν", pageWords.studyTable.said.nu),
  text("sensitivity", pageWords.studyTable.columns.sensitivity, pageWords.studyTable.said.sensitivity),
  {
    name: "source",
    title: pageWords.studyTable.columns.source,
    words: pageWords.studyTable.said.source,
    get: (row) => row.fields["source"] ?? "",
    set: (row, typed) => withField(row, "source", typed),
    paste: (row, typed) => withField(row, "source", typed),
    copy: (row) => row.fields["source"] ?? "",
  },
];

export const columnOf = (name: ColumnName): Column => COLUMNS.find((column) => column.name === name)!;

/** Headings met in spreadsheets, by the column that they mean. */
const HEADINGS: readonly (readonly [RegExp, ColumnName])[] = [
  [/^(symbol|formelzeichen|zeichen|x_?i)$/, "symbol"],
  [
    /^(quantity|input quantity|quantity x_?i|name|description|größe|groesse|eingangsgröße|beschreibung|bezeichnung)$/,
    "meaning",
  ],
  [/^(value|estimate|best estimate|wert|schätzwert|estimate x_?i)$/, "value"],
  [/^(unit|units|einheit)$/, "unit"],
  [/^(kind of °c|difference or temperature|art von °c)$/, "ofTemperature"],
  [
    /^(how it is known|wie bekannt|how known|how stated|distribution|probability distribution|type of distribution|verteilung|verteilungsform)$/,
    "how",
  ],
  [
    /^(figure|angabe|uncertainty|half-width|± ?a?|u|limits|unsicherheit|halb(?:weite|breite)|expanded uncertainty|standard uncertainty)$/,
    "first",
  ],
  [/^(with|mit|k|coverage factor|erweiterungsfaktor)$/, "second"],
  [/^(ν|v|nu|dof|degrees of freedom|freiheitsgrade|freiheitsgrad)$/, "nu"],
  [
    /^(sensitivity|empfindlichkeit|sensitivity coefficient|c_?i?|coefficient|sensitivitätskoeffizient|empfindlichkeitskoeffizient)$/,
    "sensitivity",
  ],
  [/^(source|evidence|quelle|herkunft|remark|remarks|bemerkung)$/, "source"],
];

/** A heading "Value / °C" or "Value in °C" in its two parts, as the column it means and the unit it states; else `null`. */
export function columnFromHeading(heading: string): { readonly column: ColumnName; readonly unit: string } | null {
  const parts = /^(.*?)\s*(?:[/([]\s*([^)\]]+)[)\]]?|\bin\s+(\S+))?\s*$/.exec(heading.trim());
  const name = parts?.[1] ?? "";
  const unit = parts?.[2] ?? parts?.[3] ?? "";
  const found = HEADINGS.find(([pattern]) => pattern.test(name.toLowerCase().trim()));
  return found === undefined ? null : { column: found[1], unit: unitName(unit) };
}

/** Whether a word of a pasted cell says how a quantity is known. */
export const isHowWord = (typed: string): boolean =>
  howFromWords(typed) !== null || HOWS.some(({ id }) => id === typed);
