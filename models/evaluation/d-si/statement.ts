import { refuse, type Statement } from "../../../engine/index.ts";
import type { DsiReal, DsiUncertainty } from "./quantities.ts";

const SHAPES: ReadonlyMap<
  string,
  { readonly statement: "rectangular" | "triangular" | "arcsine"; readonly divisor: number }
> = new Map([
  ["uniform", { statement: "rectangular", divisor: Math.sqrt(3) }],
  ["rectangular", { statement: "rectangular", divisor: Math.sqrt(3) }],
  ["triangular", { statement: "triangular", divisor: Math.sqrt(6) }],
  ["arcsine", { statement: "arcsine", divisor: Math.SQRT2 }],
  ["u-shaped", { statement: "arcsine", divisor: Math.SQRT2 }],
] as const);

/**
 * A `si:real` as an input quantity, in its own unit.
 *
 * @throws {InputError} a real without uncertainty
 */
export function dsiStatement(real: DsiReal, source: string, place = "si:real"): Statement {
  const { value: estimate, uncertainty } = real;
  if (uncertainty === null) return refuse(place, real.text, "a si:real with a measurement uncertainty");
  const shape = SHAPES.get(uncertainty.distribution?.toLowerCase() ?? "");
  if (shape !== undefined)
    return { distribution: shape.statement, estimate, halfWidth: standardOf(uncertainty) * shape.divisor, source };
  if (uncertainty.kind === "expanded") {
    const { expanded: expandedUncertainty, coverageFactor } = uncertainty;
    return { distribution: "normal", estimate, expandedUncertainty, coverageFactor, source };
  }
  return { distribution: "normal", estimate, standardUncertainty: uncertainty.standard, source };
}

const standardOf = (uncertainty: DsiUncertainty): number =>
  uncertainty.kind === "expanded" ? uncertainty.expanded / uncertainty.coverageFactor : uncertainty.standard;
