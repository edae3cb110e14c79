import { digits } from "./cells.ts";
import type { Shape, Stated } from "./fields.ts";
import type { MappedColumn, MappedTable } from "./mapped-table.ts";
import type { MappingAnswer, MappingQuestion, RowMeaning, StatedMapping } from "./mapping.ts";
import type { ReadInput } from "./read-row.ts";
import { LETTERS } from "./statement.ts";

/** Questions that rows leave open, one for all rows that leave the same open. */
export function openStatements(read: readonly ReadInput[], table: MappedTable): MappingQuestion[] {
  const groups = new Map<string, { readonly first: ReadInput; readonly rows: number[] }>();
  for (const input of read) {
    const { statement, uncertainty } = input;
    if (!("open" in statement)) continue;
    const kind =
      statement.open === "stated"
        ? `stated ${statement.shape ?? "unnamed"}`
        : statement.open === "letter"
          ? `letter ${statement.letter}`
          : statement.open;
    const key = `${kind} ${uncertainty?.letter ?? ""}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { first: input, rows: [input.row] });
    else group.rows.push(input.row);
  }
  return [...groups].map(([key, { first, rows }]) => questionFor(key, first, rows, table));
}

const named = (column: MappedColumn | null): string =>
  column === null ? "the uncertainty" : `column ${column.letter}${column.heading === "" ? "" : ` (${column.heading})`}`;

const SHAPE_WORDS: Readonly<Partial<Record<Shape, string>>> = {
  normal: "normal distribution",
  arcsine: "arcsine (U-shaped)",
  t: "t-distribution",
};
const shapeWords = (shape: Shape): string => SHAPE_WORDS[shape] ?? shape;

const listed = (rows: readonly number[]): string =>
  rows.length === 1 ? `row ${rows[0]!}` : `rows ${rows.slice(0, -1).join(", ")} and ${rows.at(-1)!}`;

function questionFor(
  id: string,
  { statement, uncertainty, quantity }: ReadInput,
  rows: readonly number[],
  table: MappedTable,
): MappingQuestion {
  const all = (states: Partial<RowMeaning>): StatedMapping => ({
    rows: Object.fromEntries(rows.map((row) => [String(row), states])),
  });
  const as = (answer: string, stated: Stated, more: Partial<RowMeaning> = {}): MappingAnswer => ({
    answer,
    states: all({ stated, ...more }),
  });
  const about = { id, rows, columns: uncertainty === null ? [] : [uncertainty.letter] };
  const where = rows.length === 1 ? `row ${rows[0]!} (${quantity})` : listed(rows);
  if ("open" in statement && statement.open === "factor")
    return {
      ...about,
      question: `With which coverage factor were the expanded uncertainties in ${named(uncertainty)} multiplied?`,
      because: `Nothing in ${where} states a factor k.`,
      answers: [
        ...[2, 1.96, 3].map((factor) => as(`k = ${factor}`, "expanded", { factor })),
        as("They are standard uncertainties (k = 1)", "standard"),
      ],
    };
  if ("open" in statement && statement.open === "spread")
    return {
      ...about,
      question: `Of what is the figure of ${where} in ${named(uncertainty)} the standard deviation?`,
      because: `The number of readings stands in ${named(table.columnsOf("readings")[0] ?? null)}: the mean varies by the root of that number less than single readings do.`,
      answers: [as("Of single readings: u is s/√n", "deviation"), as("Of their mean: it is u already", "standard")],
    };
  if ("open" in statement && statement.open === "letter") {
    const shapes = LETTERS[statement.letter];
    return {
      ...about,
      columns: table.columnsOf("distribution").map(({ letter }) => letter),
      question: `Which distribution does “${statement.letter}” in ${where} stand for?`,
      because: `Budgets write it for ${shapes.join(" and for ")}, and no divisor tells which.`,
      answers: shapes.map((distribution) => ({ answer: shapeWords(distribution), states: all({ distribution }) })),
    };
  }
  if ("open" in statement && statement.open === "distribution")
    return {
      ...about,
      question: `Which distribution has the quantity of ${where}?`,
      because: "It is evaluated as type B, which names no distribution.",
      answers: (["normal", "rectangular", "triangular", "arcsine"] as const satisfies readonly Shape[]).map(
        (distribution) => ({ answer: shapeWords(distribution), states: all({ distribution }) }),
      ),
    };
  const shape = "open" in statement && statement.open === "stated" ? statement.shape : null;
  const limited = shape === "rectangular" || shape === "triangular" || shape === "arcsine";
  return {
    ...about,
    question: `What are the figures of ${where} in ${named(uncertainty)}?`,
    because: `${shape === null ? "No distribution is named, and n" : `The distribution is ${shape}, and n`}o divisor${
      table.columnsOf("divisor").length === 0 ? " column" : ""
    } or other words tell what they state.`,
    answers: limited
      ? [
          as(`Half-widths: the limits lie this far from the estimate`, "half-width"),
          as("Standard uncertainties already", "standard"),
          as("Full widths, from limit to limit", "full-width"),
        ]
      : [
          as("Standard uncertainties", "standard"),
          as("Expanded uncertainties with k = 2", "expanded", { factor: 2 }),
          as("Half-widths of rectangular distributions", "half-width", { distribution: "rectangular" }),
        ],
  };
}

/** Asks for the unit of estimates, where figures beside them have one and they have none. */
export function openEstimateUnit(read: readonly ReadInput[], table: MappedTable): MappingQuestion[] {
  const open = read.filter(({ estimateUnitOpen }) => estimateUnitOpen);
  const column = table.columnsOf("estimate")[0];
  if (open.length === 0 || column === undefined) return [];
  const units = [...new Set(open.map(({ unit }) => unit))];
  const candidates = [...new Set([...units, ...(units.some((unit) => unit.endsWith("K")) ? ["°C", "K"] : [])])];
  return [
    {
      id: `estimate unit ${column.letter}`,
      question: `In which unit are the estimates in ${named(column)}?`,
      because: `They state none, and the uncertainties beside them are in ${units.join(" and ")}.`,
      rows: open.map(({ row }) => row),
      columns: [column.letter],
      answers: candidates.map((unit) => ({
        answer: unit,
        states: { columns: { [column.letter]: { field: "estimate", unit } } },
      })),
    },
  ];
}

/** Asks what a bare sensitivity coefficient converts, where both readings are possible. */
export function openCoefficient({ row, quantity, unit, coefficient }: ReadInput, resultUnit: string): MappingQuestion {
  const value = digits(coefficient.value);
  return {
    id: `coefficient ${row}`,
    question: `In which unit is the sensitivity coefficient ${value} of row ${row} (${quantity})?`,
    because: `The row is in ${unit}, the result in ${resultUnit}, and the coefficient has no unit.`,
    rows: [row],
    columns: [],
    answers: [`${resultUnit}/${resultUnit}`, `${resultUnit}/${unit}`].map((sensitivityUnit) => ({
      answer: `${value} ${sensitivityUnit}`,
      states: { rows: { [String(row)]: { sensitivityUnit } } },
    })),
  };
}
