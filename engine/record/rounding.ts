/**
 * A result as GUM 7.2.6 requires it to be printed: the uncertainty to one or two significant digits, the estimate to the
 * same decimal place. Returns texts, since trailing zeros are significant.
 */
export function roundResult(
  estimate: number,
  uncertainty: number,
  digits: 1 | 2,
): { readonly estimate: string; readonly uncertainty: string; readonly decimals: number } {
  const decimals = decimalsFor(uncertainty, digits);
  return { estimate: toDecimals(estimate, decimals), uncertainty: toDecimals(uncertainty, decimals), decimals };
}

/** Decimal places at which `uncertainty` has `digits` significant digits; negative for places before the decimal marker. */
export function decimalsFor(uncertainty: number, digits: number): number {
  if (uncertainty === 0 || !Number.isFinite(uncertainty)) return 6;
  const exponent = Number(
    Math.abs(uncertainty)
      .toExponential(digits - 1)
      .split("e")[1],
  );
  return digits - 1 - exponent;
}

const awayFromZero = (value: number, unit: number): string =>
  String(Math.sign(value) * Math.round(Math.abs(value) / unit) * unit);

/** A number at a decimal place, half rounded away from zero on its decimal expansion; never "−0". */
export function toDecimals(value: number, decimals: number): string {
  if (!Number.isFinite(value)) return String(value);
  let text: string;
  if (decimals >= 0 && decimals <= 100) text = value.toFixed(decimals);
  else if (decimals < 0) text = awayFromZero(value, Number(`1e${-decimals}`));
  else text = value.toExponential(6);
  return /^-0(\.0*)?$/.test(text) ? text.slice(1) : text;
}
