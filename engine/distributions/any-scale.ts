import { InputError } from "../errors.ts";
import { powerOfTwoAbove } from "../numerics/power-of-two.ts";
import { convertedDistribution } from "./converted.ts";
import type { InputKnowledge } from "./distribution.ts";
import type { FieldUnits } from "./field-unit.ts";

/** Between these, squares and densities of a statement's figures keep their digits. */
const LEAST = 1e-70;
const GREATEST = 1e70;

interface Fields {
  readonly [field: string]: unknown;
}
type UnitsOf = (statement: Fields) => FieldUnits;

/**
 * Reads a statement at any scale that a double has: one whose figures are so large, or so small, that their squares leave
 * the range of a double is read in another power of two and converted back, which costs no digit.
 *
 * @param read reads a statement of any kind
 * @throws {InputError} as `read`, with the figures as they were stated
 */
export function atAnyScale<S extends Fields>(
  statement: S,
  unitsOf: UnitsOf,
  read: (statement: S) => InputKnowledge,
): InputKnowledge {
  const size = sizeOf(statement, unitsOf);
  if (size === null || (size >= LEAST && size <= GREATEST)) return read(statement);
  const factor = powerOfTwoAbove(size);
  try {
    const { distribution, budget } = read(rescaled(statement, factor, unitsOf));
    return {
      distribution: convertedDistribution(distribution, { factor, offset: 0 }),
      budget: {
        ...budget,
        estimate: budget.estimate * factor,
        standardUncertainty: budget.standardUncertainty * factor,
      },
    };
  } catch (error) {
    if (error instanceof InputError) return read(statement);
    throw error;
  }
}

/** Kinds whose distribution does not scale with its figures, or needs no squares of them. */
const AS_THEY_ARE: ReadonlySet<unknown> = new Set(["poisson", "constant", "normal", "rectangular"]);

/** The largest figure in the unit of the quantity; `null` if there is none, or if the statement cannot be rescaled. */
function sizeOf(statement: Fields, unitsOf: UnitsOf): number | null {
  if (AS_THEY_ARE.has(statement["distribution"])) return null;
  const figures = figuresIn(statement, unitsOf);
  if (figures === null) return null;
  const size = figures.reduce((greatest, figure) => Math.max(greatest, Math.abs(figure)), 0);
  return size > 0 ? size : null;
}

function figuresIn(statement: Fields, unitsOf: UnitsOf): readonly number[] | null {
  const units = unitsOf(statement);
  const own = Object.entries(statement).flatMap(([field, value]): readonly number[] =>
    units[field] !== "input" ? [] : Array.isArray(value) ? (value as number[]) : [value as number],
  );
  const parts = partsOf(statement).map((part) =>
    part["unit"] !== undefined || part["distribution"] === "poisson" ? null : figuresIn(part, unitsOf),
  );
  return parts.includes(null) ? null : [...own, ...parts.flatMap((figures) => figures!)];
}

interface Component {
  readonly statement: Fields;
}
const partsOf = ({ components = [] }: { readonly components?: unknown }): Fields[] =>
  (components as readonly Component[]).map(({ statement }) => statement);

function rescaled<S extends Fields>(statement: S, factor: number, unitsOf: UnitsOf): S {
  const units = unitsOf(statement);
  const figure = (field: string, value: number): number =>
    units[field] === "input" ? value / factor : units[field] === "inverse" ? value * factor : value;
  return Object.fromEntries(
    Object.entries(statement).map(([field, value]) => [
      field,
      field === "components"
        ? (value as readonly Component[]).map((part) => ({
            ...part,
            statement: rescaled(part.statement, factor, unitsOf),
          }))
        : typeof value === "number"
          ? figure(field, value)
          : Array.isArray(value) && units[field] !== undefined
            ? (value as number[]).map((item) => figure(field, item))
            : value,
    ]),
  ) as S;
}
