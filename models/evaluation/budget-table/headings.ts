import { splitHeading } from "../text/units.ts";

/** What a column of a budget table can hold. */
export type BudgetField =
  | "quantity"
  | "symbol"
  | "estimate"
  | "unit"
  | "stated"
  | "standard"
  | "howStated"
  | "distribution"
  | "divisor"
  | "sensitivity"
  | "degreesOfFreedom"
  | "contribution"
  | "source";

/** A column and what it was taken for. */
export interface ColumnMapping {
  /** Letter as a spreadsheet shows it. */
  readonly column: string;
  readonly index: number;
  readonly heading: string;
  /** Unit in the heading, if any. */
  readonly unit: string | null;
  /** `null`: not used. */
  readonly field: BudgetField | null;
  /** How figures of this column were stated, if the heading itself says so. */
  readonly implies: "standard" | "expanded" | "half-width" | null;
}

/**
 * Words people head the columns of a budget with (common practice; EA-4/02, 4.1 for the first of most lists), without
 * case, spaces or marks. A later list gives way to an earlier one.
 */
const WORDS: readonly (readonly [BudgetField, ColumnMapping["implies"], readonly string[]])[] = [
  [
    "quantity",
    null,
    [
      "quantity",
      "quantityxi",
      "inputquantity",
      "influencequantity",
      "xi",
      "sourceofuncertainty",
      "uncertaintysource",
      "uncertaintycomponent",
      "component",
      "contributor",
      "influence",
      "item",
      "term",
    ],
  ],
  ["symbol", null, ["symbol"]],
  ["estimate", null, ["estimate", "estimatexi", "bestestimate", "value", "inputestimate"]],
  ["unit", null, ["unit", "units"]],
  [
    "standard",
    "standard",
    ["standarduncertainty", "standarduncertaintyuxi", "uxi", "ui", "stduncertainty", "stdunc", "stdu", "u"],
  ],
  [
    "stated",
    "half-width",
    ["halfwidth", "halfrange", "limits", "limit", "plusminus", "tolerance", "semirange", "bound", "bounds"],
  ],
  ["stated", "expanded", ["expandeduncertainty", "expandeduncertaintyu", "certificateu"]],
  [
    "stated",
    null,
    ["uncertainty", "stateduncertainty", "statedvalue", "uncertaintyvalue", "uncertaintystated", "valueofuncertainty"],
  ],
  ["howStated", null, ["howstated", "statedas", "statement", "kindofuncertainty", "kind", "typeofstatement"]],
  ["distribution", null, ["distribution", "probabilitydistribution", "probdistribution", "shape", "pdf", "dist"]],
  ["divisor", null, ["divisor", "coveragefactor", "k", "kfactor", "factor", "div"]],
  [
    "sensitivity",
    null,
    [
      "sensitivitycoefficient",
      "sensitivitycoefficientci",
      "sensitivity",
      "sensitivityci",
      "ci",
      "c",
      "coefficient",
      "sensitivityfactor",
    ],
  ],
  [
    "degreesOfFreedom",
    null,
    ["degreesoffreedom", "dof", "df", "nui", "nu", "vi", "nueff", "veff", "effectivedegreesoffreedom"],
  ],
  [
    "contribution",
    null,
    [
      "contribution",
      "uncertaintycontribution",
      "contributiontothestandarduncertainty",
      "uiy",
      "contributionuiy",
      "contributiontouncertainty",
    ],
  ],
  [
    "source",
    null,
    ["source", "note", "notes", "remark", "remarks", "comment", "comments", "evidence", "reference", "origin", "basis"],
  ],
];

const plain = (heading: string): string =>
  heading
    .toLowerCase()
    .replaceAll("ν", "nu")
    .replace(/±|\+\/-/g, "plusminus")
    // Compatibility forms turn subscripts such as ᵢ into plain letters.
    .normalize("NFKD")
    .replace(/[^a-z0-9]/g, "");

/** Column letters: A…Z, AA… */
export function columnLetter(index: number): string {
  const last = String.fromCodePoint(65 + (index % 26));
  return index < 26 ? last : columnLetter(Math.floor(index / 26) - 1) + last;
}

/**
 * Maps a row of headings; a field already taken by an earlier column is not given twice.
 *
 * @param assigned fields given by the user, by column letter
 */
export function mapHeadings(
  headings: readonly string[],
  assigned: Readonly<Record<string, BudgetField>> = {},
): readonly ColumnMapping[] {
  const taken = new Set<BudgetField>(Object.values(assigned));
  return headings.map((heading, index) => {
    const { name, unit } = splitHeading(heading);
    // "u(x_i)" ends in brackets that are not a unit.
    const candidates = [plain(heading), plain(name)];
    const column = columnLetter(index);
    const given = assigned[column];
    const found =
      given !== undefined
        ? undefined
        : WORDS.find(
            ([field, , words]) =>
              !taken.has(field) && candidates.some((candidate) => candidate !== "" && words.includes(candidate)),
          );
    if (found !== undefined) taken.add(found[0]);
    const whole = found !== undefined && found[2].includes(plain(heading)) && !found[2].includes(plain(name));
    return {
      column,
      index,
      heading: heading.trim(),
      unit: whole ? null : unit,
      field: given ?? found?.[0] ?? null,
      implies: found?.[1] ?? null,
    };
  });
}
