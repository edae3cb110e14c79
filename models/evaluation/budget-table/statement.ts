import { refuse, type Statement } from "../../../engine/index.ts";
import { agrees, agreesAsPrinted, digits } from "./cells.ts";
import type { Shape, Stated } from "./fields.ts";

/** What a row states about a quantity, with figures already in one unit. */
export interface RowFacts {
  readonly estimate: number;
  /** The figure of the uncertainty, as stated. */
  readonly figure: number;
  /** How it is stated: by the row itself, or else by its column. */
  readonly stated: Stated | null;
  /** Coverage factor beside the figure or in the heading. */
  readonly factor: number | null;
  readonly divisor: number | null;
  readonly distribution: Shape | null;
  readonly evaluation: "A" | "B" | null;
  readonly degreesOfFreedom: number;
  /** A letter in place of the distribution's name that may stand for two. */
  readonly letter: ShapeLetter | null;
  /** Number of readings that the figure rests on; `null` for none stated. */
  readonly readings: number | null;
  /** Whether it is stated for this row, not for its column alone, what the figure is. */
  readonly settled: boolean;
  /** The row's own standard uncertainty, where the table has one beside the figure. */
  readonly check: number | null;
  readonly source: string;
}

export interface RowPlaces {
  readonly figure: string;
  readonly divisor: string;
}

/** A row as an input quantity. */
export interface RowStatement {
  readonly statement: Statement;
  readonly standardUncertainty: number;
  /** Assumptions made, in words. */
  readonly assumed: readonly string[];
}

/** What a row leaves open. */
export type OpenPoint =
  /** Whether the figure is a half-width, an expanded or a standard uncertainty. */
  | { readonly open: "stated"; readonly shape: Shape | null }
  | { readonly open: "factor" }
  | { readonly open: "distribution" }
  | { readonly open: "letter"; readonly letter: ShapeLetter }
  /** Whether the figure is the standard deviation of single readings or of their mean. */
  | { readonly open: "spread" };

/** Letters that budgets write for more than one distribution: uniform or U-shaped, triangular or t (common practice). */
export const LETTERS = { U: ["rectangular", "arcsine"], T: ["triangular", "t"] } as const satisfies Readonly<
  Record<string, readonly Shape[]>
>;

export type ShapeLetter = keyof typeof LETTERS;

type Limited = "rectangular" | "triangular" | "arcsine";

/** Divisor that turns the half-width into a standard uncertainty (GUM 4.3.7 and 4.3.9; EA-4/02 3.3). */
const DIVISORS: Readonly<Record<Limited, number>> = {
  rectangular: Math.sqrt(3),
  triangular: Math.sqrt(6),
  arcsine: Math.SQRT2,
};
/** Coverage factors of a normal distribution in common use, by which a printed standard uncertainty tells what was divided. */
const FACTORS = [2, 3, 1.96, 2.58, 1.645] as const;

const LIMITED = Object.keys(DIVISORS) as readonly Limited[];

/** Whether a distribution is one of limits, and which divisor it has. */
export const isLimited = (shape: Shape | null): shape is Limited => shape !== null && Object.hasOwn(DIVISORS, shape);

/** @throws {InputError} figures that contradict each other */
export function rowStatement(given: RowFacts, places: RowPlaces): RowStatement | OpenPoint {
  const distribution = given.distribution ?? shapeOfLetter(given);
  if (distribution === null && given.letter !== null) return { open: "letter", letter: given.letter };
  const assumed: string[] = [];
  const row = ofTheMean({ ...given, distribution }, places, assumed);
  if ("open" in row) return row;
  const { estimate, figure, degreesOfFreedom, source, evaluation } = row;
  if (!(figure >= 0)) refuse(places.figure, figure, "an uncertainty of at least 0");
  if (figure === 0) {
    return {
      statement: { distribution: "constant", value: estimate, source },
      standardUncertainty: 0,
      assumed: ["uncertainty 0: a constant"],
    };
  }
  const shape = shapeOf(row, assumed);
  const read = isLimited(shape) ? limited(row, shape, places, assumed) : unlimited(row, shape, places, assumed);
  if ("open" in read) return read;
  const finite = degreesOfFreedom === Infinity ? {} : { degreesOfFreedom };
  if (isLimited(read.shape)) {
    const halfWidth = read.halfWidth ?? read.u * DIVISORS[read.shape];
    const statement = { distribution: read.shape, estimate, halfWidth, ...finite, source } as const;
    return { statement, standardUncertainty: read.u, assumed };
  }
  if (read.shape === "t" && degreesOfFreedom === Infinity) assumed.push("no degrees of freedom given: normal");
  const k = read.factor ?? 1;
  const uncertainty = k === 1 ? { standardUncertainty: figure } : { expandedUncertainty: figure, coverageFactor: k };
  const typeA = evaluation === "A" ? { evaluation: "A" as const } : {};
  return {
    statement:
      degreesOfFreedom === Infinity
        ? { distribution: "normal", estimate, ...uncertainty, source }
        : { distribution: "t", estimate, ...uncertainty, degreesOfFreedom, ...typeA, source },
    standardUncertainty: read.u,
    assumed,
  };
}

/** The one of a letter's distributions that the divisor, the row's own figures or a type A evaluation leave. */
function shapeOfLetter({ letter, figure, divisor, check, evaluation, degreesOfFreedom }: RowFacts): Shape | null {
  if (letter === null) return null;
  if (letter === "T" && (evaluation === "A" || degreesOfFreedom !== Infinity)) return "t";
  const divides = (by: number): boolean =>
    divisor !== null ? agrees(divisor, by) : check !== null && agreesAsPrinted(check, figure / by);
  const fits = LETTERS[letter].filter(
    (shape) => isLimited(shape) && [1, 2].some((widths) => divides(widths * DIVISORS[shape])),
  );
  return fits.length === 1 ? fits[0]! : null;
}

/** A standard deviation of single readings divided by the root of their number (JCGM 100, 4.2.3), with n − 1 for ν (4.2.6). */
function ofTheMean(row: RowFacts, places: RowPlaces, assumed: string[]): RowFacts | OpenPoint {
  const { figure, readings: n, stated, factor, divisor, check, settled } = row;
  if (n === null) {
    if (stated === "deviation")
      refuse(
        places.figure,
        digits(figure),
        "beside it the number of readings, of which this is the standard deviation",
      );
    return row;
  }
  const degreesOfFreedom = row.degreesOfFreedom === Infinity && n > 1 ? n - 1 : row.degreesOfFreedom;
  const asMean = { ...row, degreesOfFreedom };
  if (n === 1 || figure === 0) return stated === "deviation" ? { ...asMean, stated: "standard" } : asMean;
  const bare = divisor === null && factor === null;
  const unsure = bare && !settled && !isLimited(row.distribution) && (stated === "standard" || stated === null);
  if (unsure && check !== null && agreesAsPrinted(check, figure)) return { ...asMean, stated: "standard" };
  const root = Math.sqrt(n);
  const single = unsure && check !== null && agreesAsPrinted(check, figure / root);
  if (unsure && !single) return { open: "spread" };
  if (stated !== "deviation" && !single) return asMean;
  if (divisor !== null && !agrees(divisor, root))
    refuse(places.divisor, divisor, `${digits(root)}, the root of the number of readings, or nothing`);
  assumed.push(`standard deviation of ${n} readings, divided by √${n}`);
  return { ...asMean, figure: figure / root, stated: "standard", divisor: null };
}

interface ReadFigure {
  readonly shape: Shape;
  readonly u: number;
  /** As stated, so that it keeps its digits. */
  readonly halfWidth?: number;
  readonly factor?: number;
}

/** The distribution named, or the one that divisor, degrees of freedom or limits leave no doubt of; `null` if there is doubt. */
function shapeOf(row: RowFacts, assumed: string[]): Shape | null {
  const { distribution, divisor, stated, factor, evaluation, degreesOfFreedom } = row;
  if (distribution !== null) return distribution;
  if (evaluation === "A") return "t";
  const by = LIMITED.find(
    (shape) => divisor !== null && [1, 2].some((widths) => agrees(divisor, widths * DIVISORS[shape])),
  );
  if (by !== undefined) {
    assumed.push(`${by}, from its divisor ${digits(divisor!)}`);
    return by;
  }
  if ((stated === "half-width" || stated === "full-width") && divisor === null && factor === null) {
    assumed.push("rectangular, since limits are stated and no distribution");
    return "rectangular";
  }
  if (degreesOfFreedom !== Infinity) return "t";
  if (divisor === null && factor === null && (stated === null || evaluation === "B")) return null;
  assumed.push("normal, since no distribution is named");
  return "normal";
}

function limited(row: RowFacts, shape: Limited, places: RowPlaces, assumed: string[]): ReadFigure | OpenPoint {
  const { figure, divisor, factor, check } = row;
  const own = DIVISORS[shape];
  const half: ReadFigure = { shape, u: figure / own, halfWidth: figure };
  const full: ReadFigure = { shape, u: figure / 2 / own, halfWidth: figure / 2 };
  const standard: ReadFigure = { shape, u: figure };
  const divides = (by: number): boolean => divisor !== null && agrees(divisor, by);
  if (row.stated === "standard") {
    if (divisor !== null && !divides(1) && !divides(own))
      refuse(places.divisor, divisor, "1, or nothing, for a figure stated as a standard uncertainty");
    return standard;
  }
  if (row.stated === "full-width") {
    if (divisor !== null && !divides(2 * own))
      refuse(places.divisor, divisor, `${digits(2 * own)} for the full width of a ${shape} distribution`);
    return full;
  }
  if (divides(own)) return half;
  if (divides(2 * own)) {
    assumed.push(`full width, from its divisor ${digits(divisor!)}`);
    return full;
  }
  if (divides(1) && row.stated === null) return standard;
  const k = factor ?? (row.stated === "expanded" ? divisor : null);
  if (row.stated === "expanded" && k !== null) {
    assumed.push(
      `expanded uncertainty of ${shape === "arcsine" ? "an" : "a"} ${shape} distribution, divided by k = ${digits(k)}`,
    );
    return { shape, u: figure / k };
  }
  if (divisor !== null)
    return refuse(
      places.divisor,
      divisor,
      `${digits(own)} for the half-width of a ${shape} distribution, ${digits(2 * own)} for its full width, or 1 for a standard uncertainty`,
    );
  if (row.stated === "half-width") return half;
  for (const [read, words] of [
    [half, "half-width"],
    [standard, "standard uncertainty"],
    [full, "full width"],
  ] as const)
    if (check !== null && agreesAsPrinted(check, read.u)) {
      assumed.push(`${words}, by the row's own standard uncertainty`);
      return read;
    }
  return { open: "stated", shape };
}

function unlimited(row: RowFacts, named: Shape | null, places: RowPlaces, assumed: string[]): ReadFigure | OpenPoint {
  const { figure, divisor, factor, stated, check, evaluation } = row;
  const shape = named ?? "normal";
  const standard: ReadFigure = { shape, u: figure, factor: 1 };
  if (stated === "standard") {
    if (divisor !== null && !agrees(divisor, 1))
      refuse(places.divisor, divisor, "1, or nothing, for a figure stated as a standard uncertainty");
    return named === null ? { open: "distribution" } : standard;
  }
  if (factor !== null && divisor !== null && !agrees(factor, divisor))
    refuse(places.divisor, divisor, `${digits(factor)}, the coverage factor stated with the figure`);
  const k = factor ?? divisor;
  if (k !== null) {
    const limits = Object.values(DIVISORS).find((own) => agrees(own, k));
    if (limits !== undefined && evaluation !== "A")
      assumed.push(`normal with k = ${digits(k)}, which is the divisor of limits: is the distribution the right one?`);
    return { shape, u: figure / k, factor: k };
  }
  if (check !== null && stated !== "full-width") {
    const read = byOwnUncertainty(row, named, check, assumed);
    if (read !== null) return read;
  }
  if (stated === "expanded") return { open: "factor" };
  if (stated === null && (evaluation === "A" || named === "t")) {
    assumed.push("taken as a standard uncertainty, as evaluations of type A give it");
    return standard;
  }
  return { open: "stated", shape: named };
}

/** What the row's own standard uncertainty shows the figure to be: printed figures leave up to 5 % open. */
function byOwnUncertainty(
  { figure, stated, evaluation }: RowFacts,
  named: Shape | null,
  check: number,
  assumed: string[],
): ReadFigure | OpenPoint | null {
  const factors = named === null ? [2, 3] : FACTORS;
  const limits = named === null && stated === null ? LIMITED : [];
  const standards = stated === null ? [1] : [];
  const nearest = [...standards, ...limits.map((shape) => DIVISORS[shape]), ...factors]
    .map((divisor) => ({ divisor, off: Math.abs(figure / divisor / check - 1) }))
    .toSorted((a, b) => a.off - b.off)[0]!;
  if (!agreesAsPrinted(check, figure / nearest.divisor)) return null;
  const by = limits.find((shape) => DIVISORS[shape] === nearest.divisor);
  if (by !== undefined) {
    assumed.push(`half-width of a ${by} distribution, by the row's own standard uncertainty`);
    return { shape: by, u: figure / nearest.divisor, halfWidth: figure };
  }
  if (named === null && nearest.divisor === 1 && evaluation === "B") return { open: "distribution" };
  assumed.push(
    `${nearest.divisor === 1 ? "a standard uncertainty" : `expanded with k = ${nearest.divisor}`}, by the row's own standard uncertainty`,
  );
  if (named === null) assumed.push("normal, since no distribution is named");
  return { shape: named ?? "normal", u: figure / nearest.divisor, factor: nearest.divisor };
}
