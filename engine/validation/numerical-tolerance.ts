/**
 * The numerical tolerance δ of a value (JCGM 101, 7.9.2): written as c·10^l with an integer c of `digits` significant
 * decimal digits, δ = ½·10^l. The value is rounded first: 0.0996 to one digit is 1·10⁻¹, so δ = 0.05.
 *
 * @returns 0 for the value 0
 */
export function numericalTolerance(value: number, digits: 1 | 2): number {
  if (value === 0 || !Number.isFinite(value)) return 0;
  const exponent = Number(
    Math.abs(value)
      .toExponential(digits - 1)
      .split("e")[1],
  );
  // Parsed from text, so that it is the double nearest the decimal δ.
  return Number(`5e${exponent - digits}`);
}
