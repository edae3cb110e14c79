import { bag, figure, list, text, whole, type Bag } from "../evidence/text.ts";
import { filledRows } from "./readings-draft.ts";
import { inKelvin, typedFrom, type SmallUnit } from "./units.ts";

/** Fields of a withdrawal in a description, with whether each is a difference of temperature. */
export const WITHDRAWAL = [
  ["depth", false],
  ["withdrawn", false],
  ["before", true],
  ["after", true],
  ["again", true],
  ["standardUncertainty", true],
  ["conductionLength", false],
  ["conductionLengthUncertainty", false],
] as const;
export type WithdrawalField = (typeof WITHDRAWAL)[number][0];

/** An immersion check as it is typed. */
export interface ImmersionDraft {
  title: string;
  notes: string;
  planned: string;
  limit: string;
  /** What is read at each depth: indications in °C beside those of a thermometer that stays, or differences to it. */
  readAs: "indications" | "differences";
  /** `depth`, `reading`, and `reference` beside an indication. */
  depths: Record<string, string>[];
  withdrawal: Partial<Record<WithdrawalField, string>>;
  unit: SmallUnit;
  others: Record<string, unknown>;
}

export const emptyImmersion = (unit: SmallUnit): ImmersionDraft => ({
  title: "",
  notes: "",
  planned: "",
  limit: "",
  readAs: "indications",
  depths: [],
  withdrawal: {},
  unit,
  others: {},
});

/** The description that the form makes, finished or not. */
export function immersionDocument(draft: ImmersionDraft): Record<string, unknown> {
  const { depths, unit, readAs, withdrawal } = draft;
  const rows = filledRows(depths).map((i) => {
    const { depth = "", reading = "", reference = "" } = depths[i]!;
    return (
      whole({
        depth: figure(depth),
        reading: readAs === "differences" ? inKelvin(reading, unit) : figure(reading),
        reference: readAs === "differences" ? undefined : figure(reference),
      }) ?? {}
    );
  });
  return {
    ...draft.others,
    title: draft.title.trim(),
    ...whole({
      notes: draft.notes.trim(),
      planned: figure(draft.planned),
      limit: inKelvin(draft.limit, unit),
      withdrawal: whole(
        Object.fromEntries(
          WITHDRAWAL.map(([name, kelvin]) => {
            const typed = withdrawal[name] ?? "";
            return [name, kelvin ? inKelvin(typed, unit) : figure(typed)];
          }),
        ),
      ),
      depths: rows.length === 0 ? undefined : rows,
    }),
  };
}

const KNOWN: ReadonlySet<string> = new Set(["title", "notes", "planned", "limit", "withdrawal", "depths"]);

/** The form that makes a description: what it has no field for stays. */
export function immersionFrom(document: Bag, unit: SmallUnit): ImmersionDraft {
  const depths = list(document["depths"]).map(bag);
  const differences = depths.length > 0 && depths.every(({ reference }) => reference === undefined);
  return {
    title: text(document["title"]),
    notes: text(document["notes"]),
    planned: text(document["planned"]),
    limit: typedFrom(document["limit"], unit),
    readAs: differences ? "differences" : "indications",
    depths: depths.map(({ depth, reading, reference }) => ({
      depth: text(depth),
      reading: differences ? typedFrom(reading, unit) : text(reading),
      ...(reference === undefined ? {} : { reference: text(reference) }),
    })),
    withdrawal: Object.fromEntries(
      WITHDRAWAL.flatMap(([name, kelvin]) => {
        const value = bag(document["withdrawal"])[name];
        return value === undefined ? [] : [[name, kelvin ? typedFrom(value, unit) : text(value)]];
      }),
    ),
    unit,
    others: Object.fromEntries(Object.entries(document).filter(([name]) => !KNOWN.has(name))),
  };
}
