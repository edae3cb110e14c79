import { refuse } from "../../../engine/index.ts";
import { factorBetween, readUnit, unitProduct } from "../../../engine/internal.ts";
import { agrees, agreesAsPrinted, digits } from "./cells.ts";
import { unitFactor } from "./unit-scale.ts";

/** A sensitivity coefficient as a row states it. */
export interface StatedCoefficient {
  readonly value: number;
  /** Its unit, in its cell or its heading; `null` if none is written. */
  readonly unit: string | null;
  /** Unit of the row's uncertainty; empty if none is written. */
  readonly termUnit: string;
  readonly standardUncertainty: number;
  /** The row's own contribution with its unit, if the table has it. */
  readonly contribution: { readonly value: number; readonly unit: string | null } | null;
  /** Where it stands, for messages. */
  readonly place: string;
}

export interface Coefficient {
  /** In units of the measurand per unit of the term. */
  readonly value: number;
  readonly assumed: readonly string[];
}

/**
 * A coefficient in units of the measurand per unit of the term, so that 0.6 mΩ with 2.6 K/Ω are 1.56 mK.
 *
 * @returns `null` for a coefficient that can be read in two ways
 * @throws {InputError} units that do not make the measurand's
 */
export function coefficientIn(measurandUnit: string, stated: StatedCoefficient): Coefficient | null {
  const { value, unit, termUnit, place } = stated;
  if (unit !== null) return { value: value * factorOf(measurandUnit, unit, stated), assumed: [] };
  if (measurandUnit === "" || termUnit === "") return { value, assumed: [] };
  const factor = unitFactor(termUnit, measurandUnit);
  if (factor === 1) return { value, assumed: [] };
  if (factor === null) {
    // ±1 converts nothing, so the units would have to be alike.
    if (Math.abs(value) === 1)
      refuse(place, termUnit, `a unit that goes with ${measurandUnit}, or a sensitivity coefficient that converts it`);
    return { value, assumed: [`sensitivity coefficient taken in ${measurandUnit}/${termUnit}`] };
  }
  if (Math.abs(value) === 1) return { value: value * factor, assumed: [] };
  const converting = commensurableFactor(measurandUnit, factor, stated);
  return converting === null ? null : { value: value * converting, assumed: [] };
}

function factorOf(measurandUnit: string, unit: string, { value, termUnit, place }: StatedCoefficient): number {
  const [own, term, measurand] = [unit, termUnit === "" ? "1" : termUnit, measurandUnit].map(readUnit);
  const factor =
    own == null || term == null || measurand == null ? null : factorBetween(unitProduct(own, term), measurand);
  return (
    factor ??
    refuse(
      place,
      `${digits(value)} ${unit} for a figure in ${termUnit === "" ? "no unit" : termUnit}`,
      `a coefficient in ${measurandUnit}/${termUnit === "" ? "1" : termUnit}, or in multiples of both`,
    )
  );
}

/**
 * A bare coefficient other than ±1, of a term in a multiple of the measurand's unit: it may be a plain number, or convert
 * already. The row's own contribution decides, or a coefficient that is the conversion itself.
 */
function commensurableFactor(
  measurandUnit: string,
  factor: number,
  { value, standardUncertainty, contribution }: StatedCoefficient,
): number | null {
  if (contribution !== null) {
    const toMeasurand = unitFactor(contribution.unit ?? measurandUnit, measurandUnit);
    const printed = Math.abs(contribution.value) * (toMeasurand ?? Number.NaN);
    const own = Math.abs(value) * standardUncertainty;
    if (agreesAsPrinted(printed, own * factor)) return factor;
    if (agreesAsPrinted(printed, own)) return 1;
  }
  return agrees(Math.abs(value), factor) ? 1 : null;
}

/** The unit above the line of a coefficient's unit such as `K/Ω`, or `null`. */
export const unitAbove = (unit: string | null): string | null => {
  const [above, below, more] = (unit ?? "").split("/");
  return below === undefined || more !== undefined || above!.trim() === "1" ? null : above!.trim();
};
