import type { FieldUnit } from "../../engine/internal.ts";

/** A unit as people write its inverse: "°C⁻¹", "(kg/m³)⁻¹". */
const inverseOf = (unit: string): string => (/^[\p{L}°µ%]+$/u.test(unit) ? `${unit}⁻¹` : `(${unit})⁻¹`);

/**
 * The unit that a figure of a statement is written with.
 *
 * @param declared what its kind of distribution declares; nothing for a field that declares no unit
 * @param unit the input's
 * @returns "1" where no unit follows the figure
 */
export function unitOfFigure(declared: FieldUnit | null | undefined, unit: string): string {
  if (unit === "1") return "1";
  if (declared === "input") return unit;
  return declared === "inverse" ? inverseOf(unit) : "1";
}
