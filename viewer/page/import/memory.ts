import type { DrawnRow, StatedMapping } from "../../api/budget-tables.ts";

/** What was stated of a table, kept for the next one with the same headings. */
export interface Remembered {
  /** Headings of the table, each in letters and digits alone. */
  readonly shape: string;
  /** Rows that the headings take. */
  readonly height: number;
  /** Whether the reader had to name them. */
  readonly named: boolean;
  readonly file: string;
  /** Day it was kept, as YYYY-MM-DD. */
  readonly day: string;
  /** What holds of any table of this shape. */
  readonly states: StatedMapping;
  /** What was stated of rows, by what they are called: another table has them in other places. */
  readonly rows: Readonly<Record<string, NonNullable<StatedMapping["rows"]>[string]>>;
}

const PLACE = "trialband-import-mappings";
const MOST = 50;

/** Letters and digits alone: the same heading typed a little otherwise is the same. */
const plain = (text: string): string =>
  text
    .toLowerCase()
    .normalize("NFKD")
    .replace(/[^\p{L}\p{N}]/gu, "");

/** The first text of a row, by which it is known in another table. */
export const labelOf = ({ cells }: DrawnRow): string => plain(cells.find((cell) => cell.trim() !== "") ?? "");

/** The headings of a table in these rows. */
export function shapeOf(rows: readonly DrawnRow[]): string {
  const width = Math.max(0, ...rows.map(({ cells }) => cells.length));
  return Array.from({ length: width }, (_, i) => rows.map(({ cells }) => plain(cells[i] ?? "")).join(""))
    .join("|")
    .replace(/\|+$/, "");
}

export function remembered(): readonly Remembered[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(PLACE) ?? "[]");
    return Array.isArray(kept)
      ? (kept as Remembered[]).filter((one) => typeof one?.shape === "string" && typeof one.states === "object")
      : [];
  } catch {
    return [];
  }
}

function write(all: readonly Remembered[]): void {
  try {
    localStorage.setItem(PLACE, JSON.stringify(all.slice(0, MOST)));
  } catch {
    // A browser that keeps nothing asks again next time.
  }
}

/** Keeps what was stated; for a shape that was kept before it takes its place. */
export const remember = (one: Remembered): void =>
  write([one, ...remembered().filter(({ shape }) => shape !== one.shape)]);

export const forget = (shape: string): void => write(remembered().filter((one) => one.shape !== shape));

/** What to keep of statements about a table: signs and columns as they are, rows by their names. */
export function keepable(
  stated: StatedMapping,
  rows: readonly DrawnRow[],
  headings: readonly number[],
  file: string,
  day: string,
): Remembered | null {
  const { columns, decimal, unit, divisors } = stated;
  const byNumber = new Map(rows.map((row) => [row.row, row]));
  const named = Object.fromEntries(
    Object.entries(stated.rows ?? {}).flatMap(([number, meaning]) => {
      const row = byNumber.get(Number(number));
      const label = row === undefined ? "" : labelOf(row);
      return label === "" ? [] : [[label, meaning]];
    }),
  );
  const shape = shapeOf(headings.flatMap((number) => byNumber.get(number) ?? []));
  const states: StatedMapping = {
    ...(columns === undefined ? {} : { columns }),
    ...(decimal === undefined ? {} : { decimal }),
    ...(unit === undefined ? {} : { unit }),
    ...(divisors === undefined ? {} : { divisors }),
  };
  if (
    shape === "" ||
    (Object.keys(states).length === 0 && Object.keys(named).length === 0 && stated.headings === undefined)
  )
    return null;
  return { shape, height: headings.length, named: stated.headings !== undefined, file, day, states, rows: named };
}

/** What was kept for a table with the headings that stand in these rows, and the statements it makes of them. */
export function recall(
  rows: readonly DrawnRow[],
): { readonly kept: Remembered; readonly states: StatedMapping } | null {
  for (const kept of remembered()) {
    const at = rows.findIndex((_, i) => shapeOf(rows.slice(i, i + kept.height)) === kept.shape);
    if (at < 0) continue;
    const headings = rows.slice(at, at + kept.height).map(({ row }) => row);
    const meanings = Object.fromEntries(
      rows.slice(at + kept.height).flatMap((row) => {
        const label = labelOf(row);
        return Object.hasOwn(kept.rows, label) ? [[String(row.row), kept.rows[label]!]] : [];
      }),
    );
    return {
      kept,
      states: {
        ...kept.states,
        ...(kept.named ? { headings } : {}),
        ...(Object.keys(meanings).length === 0 ? {} : { rows: meanings }),
      },
    };
  }
  return null;
}
