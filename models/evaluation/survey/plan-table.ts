import type { Cell, TableRow } from "../table/table.ts";
import { parseDecimal } from "../text/decimal.ts";
import { formatInstant } from "../text/instant.ts";
import { parseStamp } from "../text/stamp.ts";
import { splitHeading } from "../text/units.ts";

/** A step as a table has it: moments as written, and by thermometer the name of its position. */
export interface PlannedStep {
  readonly from: string;
  readonly to: string;
  /** Without those that were out of the bath. */
  readonly at: Readonly<Record<string, string>>;
}

/** A position as a table has it; lengths in mm, as text, and empty where nothing is stated. */
export interface PlannedPosition {
  readonly name: string;
  readonly depth: string;
  readonly radius: string;
  readonly direction: string;
}

/** What a table beside a log states of a survey: who stood where and when, or where the positions are. */
export type PlanTable =
  | { readonly kind: "steps"; readonly steps: readonly PlannedStep[] }
  | { readonly kind: "positions"; readonly positions: readonly PlannedPosition[] };

/** Rows among which the headings are sought. */
const HEAD_ROWS = 20;
/** Rows that a plan may have: a survey with more steps is a log. */
const MOST_ROWS = 500;

/** Headings in English, German, French, Spanish and Italian (common practice). */
const FROM = /^(from|begin(s|ning)?|start(s|ed)?|von|beginn|anfang|ab|de|début|debut|desde|inicio|da|inizio)$/i;
const TO = /^(to|until|end(s|ed)?|bis|ende|à|a|fin|jusqu'à|hasta|fine|fino a)$/i;
const NUMBER = /^(step|steps|no\.?|nr\.?|n°|#|schritt|étape|etape|paso|passo)?$/i;
const NOTE = /^(notes?|remarks?|comments?|bemerkung(en)?|anmerkung(en)?|remarque|nota)$/i;
const NAME = /^(position|place|point|name|ort|stelle|lieu|lugar|posición|posizione|luogo)$/i;
const DEPTH = /^(depth|immersion|tiefe|eintauchtiefe|profondeur|profundidad|profondità)$/i;
const RADIUS =
  /^(from the axis|distance|distance from the axis|radius|radial|abstand|abstand von der achse|rayon|radio|raggio)$/i;
const DIRECTION = /^(direction|side|richtung|seite|dirección|direzione)$/i;

/** Longest cell that says anything here. */
const LONGEST = 200;

const text = (cell: Cell | undefined): string =>
  cell === null || cell === undefined ? "" : String(cell).slice(0, LONGEST).trim();
const nameOf = (cell: Cell | undefined): string => splitHeading(text(cell)).name.trim();

/**
 * What rows state of a survey's steps or positions, told from their headings; `null` for any other table, such as a log.
 * What its cells say is for the reader of the form to judge: nothing is refused here.
 */
export function readPlanTable(rows: readonly TableRow[]): PlanTable | null {
  if (rows.length > MOST_ROWS) return null;
  for (const [i, { cells }] of rows.slice(0, HEAD_ROWS).entries()) {
    const names = cells.map(nameOf);
    const at = (pattern: RegExp): number => names.findIndex((name) => pattern.test(name));
    const below = rows.slice(i + 1).filter((row) => row.cells.some((cell) => text(cell) !== ""));
    const [from, to] = [at(FROM), at(TO)];
    if (from >= 0 && to >= 0 && from !== to) {
      const thermometers = names.flatMap((name, column) =>
        column === from || column === to || NUMBER.test(name) || NOTE.test(name) ? [] : [{ name, column }],
      );
      if (thermometers.length > 0)
        return { kind: "steps", steps: below.map((row) => stepOf(row, from, to, thermometers)) };
    }
    const [name, depth] = [at(NAME), at(DEPTH)];
    if (name >= 0 && depth >= 0) {
      const [radius, direction] = [at(RADIUS), at(DIRECTION)];
      const length = (row: TableRow, column: number): string =>
        column < 0 ? "" : inMillimetres(text(row.cells[column]), unitOf(cells[column]));
      return {
        kind: "positions",
        positions: below.map((row) => ({
          name: text(row.cells[name]),
          depth: length(row, depth),
          radius: length(row, radius),
          direction: direction < 0 ? "" : text(row.cells[direction]),
        })),
      };
    }
  }
  return null;
}

/** Marks of a thermometer that was nowhere. */
const OUT = /^(?:[-–—/.]*|out( of the bath)?|draußen|nicht im bad)$/i;

const stepOf = (
  { cells }: TableRow,
  from: number,
  to: number,
  thermometers: readonly { readonly name: string; readonly column: number }[],
): PlannedStep => ({
  from: moment(text(cells[from])),
  to: moment(text(cells[to])),
  at: Object.fromEntries(
    thermometers
      .map(({ name, column }) => [name, text(cells[column])] as const)
      .filter(([, place]) => !OUT.test(place)),
  ),
});

/** A date and time as descriptions have it; what may be two dates, and anything else, stays as it is written. */
function moment(written: string): string {
  const stamp = parseStamp(written, null);
  return stamp === null || stamp === "ambiguous" || !stamp.dated || stamp.zoned
    ? written
    : formatInstant(stamp.seconds).replace("T", " ");
}

const MILLIMETRES: Readonly<Record<string, number>> = { "": 1, mm: 1, cm: 10, m: 1000 };
const unitOf = (heading: Cell | undefined): string => /(?:\/|\[|\(|\bin)\s*(mm|cm|m)\b/i.exec(text(heading))?.[1] ?? "";

function inMillimetres(written: string, unit: string): string {
  const parts = /^(.*?)\s*(mm|cm|m)?$/i.exec(written)!;
  const factor = MILLIMETRES[(parts[2] ?? unit).toLowerCase()]!;
  const figure = parseDecimal(parts[1]!)?.value ?? null;
  return figure === null ? written : String(Number((figure * factor).toPrecision(12)));
}
