import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { COLUMNS } from "./columns.ts";
import { declaredBy, type Draft } from "./draft.ts";
import type { Kind } from "./fields.ts";
import { HOW_CELLS, howOf, type How, type HowCell } from "./hows.ts";
import { furtherFields, isEmptyRow, isNewKey, type Row } from "./row.ts";
import { isPart, relativeIn } from "./relative.ts";
import { asksTemperature, shownRows, type TableShape } from "./table-shape.ts";
import { isFilled, partsOf, readNumber } from "./typed.ts";
import { fieldName } from "../field-name.ts";

/** Something that is missing or cannot be used, at its place of the form, in a sentence that says what to do. */
export interface Lack {
  readonly place: string;
  readonly words: string;
}

/** Fields of which 0 and less mean nothing. */
const POSITIVE: ReadonlySet<string> = new Set([
  "halfWidth",
  "standardUncertainty",
  "expandedUncertainty",
  "coverageFactor",
  "degreesOfFreedom",
  "limitHalfWidth",
  "scale",
  "shape",
]);

export const notANumber = (text: string): string => fillText(words.studyLacks.notANumber, { text: text.trim() });

/** Everything that the form itself finds missing or unreadable, without asking the server; the rows in their order. */
export function lacksOf(draft: Draft, shape: TableShape, kinds: readonly Kind[]): readonly Lack[] {
  const rows = shownRows(draft, shape);
  const counted = shape.declared === null ? rows : rows.filter((row) => !isEmptyRow(row));
  return [
    ...(isFilled(draft.title) ? [] : [{ place: "title", words: words.studyLacks.title }]),
    ...(draft.model === "" ? [{ place: "model", words: words.studyLacks.model }] : []),
    ...(shape.declared !== null && counted.length === 0 ? [{ place: "rows", words: words.studyLacks.rows }] : []),
    ...counted.flatMap((row) => lacksOfRow(draft, row, counted, shape, kinds)),
    // A study at hand states as much as it states: the engine takes what it says, and dimension one where it says nothing.
    ...(declaredBy(draft) === null || (counted.length > 0 && counted.every(({ key }) => !isNewKey(key)))
      ? []
      : draft.results.flatMap((result) => lacksOfUnit(`results.${result.key}`, result, result.unit.trim() === "°C"))),
  ];
}

interface Declaration {
  readonly unit: string;
  readonly ofTemperature: string;
}

const lacksOfUnit = (place: string, { unit, ofTemperature }: Declaration, asks: boolean): Lack[] => [
  ...(isFilled(unit) ? [] : [{ place: `${place}.unit`, words: words.studyLacks.unit }]),
  ...(asks && ofTemperature === ""
    ? [
        {
          place: `${place}.ofTemperature`,
          words: words.studyLacks.kind,
        },
      ]
    : []),
];

function lacksOfRow(draft: Draft, row: Row, rows: readonly Row[], shape: TableShape, kinds: readonly Kind[]): Lack[] {
  const place = `inputs.${row.key}`;
  const lacks: Lack[] = [];
  const add = (field: string, told: string): void => void lacks.push({ place: `${place}.${field}`, words: told });
  if (shape.declared !== null) {
    const symbol = row.symbol.trim();
    if (symbol === "" && !isFilled(row.meaning) && isNewKey(row.key)) add("symbol", words.studyLacks.symbol);
    const twin = symbol === "" ? -1 : rows.findIndex((one) => one.symbol.trim() === symbol);
    if (twin >= 0 && rows[twin] !== row)
      add("symbol", fillText(words.studyLacks.twin, { n: String(twin + 1), symbol }));
  }
  if (row.how === "") {
    if (shape.optional.has(row.key)) return lacks;
    add("how", words.studyLacks.how);
  }
  if (shape.declared !== null && (isNewKey(row.key) || row.unit.trim() === "K"))
    lacks.push(...lacksOfUnit(place, row, asksTemperature(draft, row)));
  if (shape.declared === "additive") {
    if (!isFilled(row.sensitivity)) add("sensitivity", words.studyLacks.sensitivity);
    else if (readNumber(row.sensitivity) === null) add("sensitivity", notANumber(row.sensitivity));
  }
  const how = howOf(row.how);
  if (how === undefined) {
    // Figures that wait for the way in which they are known.
    for (const column of COLUMNS)
      if (HOW_CELLS.some((name) => name === column.name) && column.name !== "first") {
        const text = column.get(row);
        if (isFilled(text) && readNumber(text) === null) add(`held-${column.name}`, notANumber(text));
      }
    return lacks;
  }
  lacks.push(...lacksOfFigures(place, row, how, kinds));
  return lacks;
}

/** What the figures of a row lack: those of its cells, and those of the row below. */
export function lacksOfFigures(
  place: string,
  { fields, unit = "" }: Pick<Row, "fields"> & Partial<Pick<Row, "unit">>,
  how: How,
  kinds: readonly Kind[],
): Lack[] {
  const lacks: Lack[] = [];
  const shapes = new Map(
    kinds
      .filter(({ name }) => name === how.kind || name === how.withNu)
      .flatMap((kind) => kind.fields.map((field) => [field.name, field.shape] as const)),
  );
  const add = (field: string, told: string): void => void lacks.push({ place: `${place}.${field}`, words: told });
  const further = furtherFields(how, kinds);
  const required = new Set(
    kinds
      .find(({ name }) => name === how.kind)
      ?.fields.filter((field) => field.required)
      .map(({ name }) => name),
  );
  const cells = HOW_CELLS.flatMap((name) => how[name] ?? []);
  const others = further.map(({ name }): HowCell => ({
    field: name,
    short: "",
    words: name === "components" ? words.studyLacks.mixture : fieldName(name),
    ...(required.has(name) ? {} : { optional: true as const }),
  }));
  for (const cell of [...cells, ...others]) {
    const text = fields[cell.field] ?? "";
    if (!isFilled(text)) {
      if (cell.optional !== true) add(cell.field, fillText(words.studyLacks.type, { what: cell.words }));
      continue;
    }
    if (shapes.get(cell.field) === "numbers") {
      const parts = partsOf(text);
      const wrong = parts.findIndex((part) => readNumber(part) === null);
      if (wrong >= 0)
        add(
          cell.field,
          fillText(words.studyLacks.wrongNumber, { n: String(wrong + 1), what: cell.words, text: parts[wrong]! }),
        );
      else if (how.kind === "readings" && parts.length < 2 && !isFilled(fields["pooledStandardDeviation"]))
        add(cell.field, words.studyLacks.readings);
    } else if (shapes.get(cell.field) === "number") {
      const relative = relativeIn(cell.field, text);
      const number = relative?.figure ?? readNumber(text);
      if (relative !== null && isPart(unit))
        add(cell.field, fillText(words.studyLacks.partOfPart, { text: text.trim(), unit: unit.trim() }));
      else if (relative !== null && readNumber(fields["estimate"] ?? "") === 0)
        add(cell.field, fillText(words.studyLacks.partOfZero, { text: text.trim() }));
      else if (number === null) add(cell.field, notANumber(text));
      else if (POSITIVE.has(cell.field) && !(number > 0))
        add(cell.field, fillText(words.studyLacks.positive, { what: cell.words }));
    }
  }
  const [from, to] = [readNumber(fields["lower"] ?? ""), readNumber(fields["upper"] ?? "")];
  const limits = how.first?.field === "lower" && how.second?.field === "upper";
  if (limits && from !== null && to !== null && !(from < to))
    add("upper", fillText(words.studyLacks.upper, { lower: fields["lower"]!.trim() }));
  return lacks;
}
