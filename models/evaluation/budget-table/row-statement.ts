import { refuse, type Statement } from "../../../engine/index.ts";
import { agrees, digits, divisorOf, isBlank, textOf } from "./cells.ts";
import type { Cell } from "../table/table.ts";

/** What a row states about a quantity, with figures already in the unit of the estimate. */
export interface RowFigures {
  readonly estimate: number;
  /** The figure under the heading for the stated uncertainty, or the standard uncertainty if there is no other. */
  readonly figure: number;
  /** How it was stated, from the row itself or from the heading. */
  readonly stated: "standard" | "expanded" | "half-width" | null;
  readonly distribution: string;
  readonly divisor: number | null;
  readonly degreesOfFreedom: number;
  readonly source: string;
}

export interface RowStatement {
  readonly statement: Statement;
  readonly standardUncertainty: number;
  /** Assumptions made. */
  readonly assumed: readonly string[];
}

type Shape = "normal" | "rectangular" | "triangular" | "arcsine" | "t";

const SHAPES: readonly (readonly [RegExp, Shape])[] = [
  [/^(normal|gauss(ian)?|n|certificate|gaussian normal|normal k ?= ?2)$/i, "normal"],
  [/^(rect(angular)?|uniform|r|box|rechteck)$/i, "rectangular"],
  [/^(tri(angular|angle)?)$/i, "triangular"],
  [/^(arc ?sine|u|u-?shaped?|u-?shape distribution|arcsin)$/i, "arcsine"],
  [/^(t|student('?s)?( t)?|t-distribution|type a|a)$/i, "t"],
];

/** Divisor that turns the half-width into a standard uncertainty. */
const DIVISORS = { rectangular: Math.sqrt(3), triangular: Math.sqrt(6), arcsine: Math.SQRT2 } as const;

/** Reads "how stated": standard, expanded or k = 2, half-width or ±. @throws {InputError} */
export function howStated(
  cell: Cell | undefined,
  place: string,
): { readonly stated: RowFigures["stated"]; readonly factor: number | null } {
  if (isBlank(cell)) return { stated: null, factor: null };
  const text = textOf(cell);
  const k = /k\s*=\s*([\d.,]+)/i.exec(text);
  if (k !== null) return { stated: "expanded", factor: divisorOf(k[1]!, place).value };
  if (/half|limit|±|\+\/-|bound|toleran/i.test(text)) return { stated: "half-width", factor: null };
  if (/expanded|certificate/i.test(text)) return { stated: "expanded", factor: null };
  if (/standard|1\s*s|k\s*1|sigma/i.test(text)) return { stated: "standard", factor: null };
  return refuse(place, text, "standard, expanded (with k = …), or half-width");
}

/**
 * A row as an input quantity.
 *
 * @param places where the row's distribution, divisor and figure stand, for messages
 * @throws {InputError} a distribution not known, or a divisor that contradicts it
 */
export function rowStatement(
  row: RowFigures,
  places: { readonly distribution: string; readonly divisor: string; readonly figure: string },
): RowStatement {
  const { estimate, figure, divisor, degreesOfFreedom, source } = row;
  if (!(figure >= 0)) refuse(places.figure, figure, "an uncertainty of at least 0");
  if (figure === 0) {
    return {
      statement: { distribution: "constant", value: estimate, source },
      standardUncertainty: 0,
      assumed: ["uncertainty 0: a constant"],
    };
  }
  const assumed: string[] = [];
  const shape = shapeOf(row, places.distribution, assumed);
  const finite = degreesOfFreedom === Infinity ? {} : { degreesOfFreedom };
  if (shape === "rectangular" || shape === "triangular" || shape === "arcsine") {
    const halfWidth = halfWidthOf(row, shape, places.divisor, assumed);
    return {
      statement: { distribution: shape, estimate, halfWidth, ...finite, source },
      standardUncertainty: halfWidth / DIVISORS[shape],
      assumed,
    };
  }
  if (row.stated === "half-width")
    refuse(
      places.distribution,
      row.distribution,
      "a distribution with limits (rectangular, triangular or arcsine) for a half-width",
    );
  const typeA = /^(type )?a$/i.test(row.distribution.trim()) ? { evaluation: "A" as const } : {};
  if (shape === "t" && degreesOfFreedom === Infinity) assumed.push("no degrees of freedom given: normal");
  const k = row.stated === "standard" ? 1 : divisor;
  if (row.stated === "standard" && divisor !== null && !agrees(divisor, 1)) {
    refuse(places.divisor, divisor, "1, or nothing, for a figure stated as a standard uncertainty");
  }
  if (k === null && row.stated === "expanded")
    refuse(places.divisor, undefined, "the coverage factor k of an expanded uncertainty");
  if (k === null) assumed.push("no divisor given: taken as a standard uncertainty");
  const uncertainty =
    k === null || k === 1 ? { standardUncertainty: figure } : { expandedUncertainty: figure, coverageFactor: k };
  return {
    statement:
      degreesOfFreedom === Infinity
        ? { distribution: "normal", estimate, ...uncertainty, source }
        : { distribution: "t", estimate, ...uncertainty, degreesOfFreedom, ...typeA, source },
    standardUncertainty: figure / (k ?? 1),
    assumed,
  };
}

function shapeOf({ distribution, divisor, stated }: RowFigures, place: string, assumed: string[]): Shape {
  const text = distribution.trim();
  if (text !== "" && !/^[-–—]$/.test(text)) {
    const found = SHAPES.find(([words]) => words.test(text.replace(/\s+/g, " ")));
    return found?.[1] ?? refuse(place, text, "normal, rectangular, triangular, arcsine (U-shaped) or t");
  }
  const guess = (Object.entries(DIVISORS) as [keyof typeof DIVISORS, number][]).find(
    ([, value]) => divisor !== null && agrees(divisor, value),
  );
  if (guess !== undefined) {
    assumed.push(`${guess[0]}, from its divisor ${digits(divisor!)}`);
    return guess[0];
  }
  if (stated === "half-width") {
    assumed.push("rectangular, since limits are stated and no distribution");
    return "rectangular";
  }
  assumed.push("normal, since no distribution is named");
  return "normal";
}

function halfWidthOf(
  { figure, divisor, stated }: RowFigures,
  shape: keyof typeof DIVISORS,
  place: string,
  assumed: string[],
): number {
  const own = DIVISORS[shape];
  if (stated === "standard" || (stated === null && divisor !== null && agrees(divisor, 1))) {
    if (divisor !== null && !agrees(divisor, 1) && !agrees(divisor, own)) {
      refuse(place, divisor, `1, or nothing, for a figure stated as a standard uncertainty`);
    }
    return figure * own;
  }
  if (divisor === null) {
    if (stated === null) assumed.push(`taken as the half-width of a ${shape} distribution`);
    return figure;
  }
  if (agrees(divisor, own)) return figure;
  if (agrees(divisor, 2 * own)) {
    assumed.push(`full width, from its divisor ${digits(divisor)}`);
    return figure / 2;
  }
  return refuse(
    place,
    divisor,
    `${digits(own)} for the half-width of a ${shape} distribution, ${digits(2 * own)} for its full width, or 1 for a standard uncertainty`,
  );
}
