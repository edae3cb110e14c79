import {
  decimalsFor,
  exponentOf,
  exponentOfThousands,
  LARGE_EXPONENT,
  needsPower,
  unitWithPower,
  type Entry,
  type Numbers,
} from "./numbers.ts";

/** An estimate beside its standard uncertainty, both in one unit and, where u ≠ 0, to one decimal place. */
export interface EstimateEntries {
  readonly estimate: Entry;
  readonly uncertainty: Entry;
}

/**
 * An estimate to the place its standard uncertainty has with two significant digits (JCGM 100, 7.2.6). One power of ten
 * is taken out of both, so that the digits of the two can be compared.
 */
export function estimateEntries(estimate: number, u: number, unit: string, { fixed, plain }: Numbers): EstimateEntries {
  // A constant keeps the digits it was given; 15 leave out what binary conversion adds.
  if (u === 0)
    return { estimate: { digits: plain(Number(estimate.toPrecision(15))), unit }, uncertainty: { digits: "0", unit } };
  const power = powerFor(Math.max(Math.abs(estimate), u), u);
  const scale = Number(`1e${-power}`);
  const decimals = Math.max(0, decimalsFor(u * scale, 2));
  const shown = unitWithPower(power, unit);
  return {
    estimate: { digits: fixed(estimate * scale, decimals), unit: shown },
    uncertainty: { digits: fixed(u * scale, decimals), unit: shown },
  };
}

/** From here on a figure begins with zeros, and a power of ten makes it shorter. */
const BEGINS_WITH_ZEROS = 0.1;

/** Beyond this a power of ten leaves the range of a double. */
const MOST_POWER = 300;

/**
 * The power of ten, a multiple of three, to take out of figures of this size that are known to two digits of `spread`; 0
 * where they print well as they are. An estimate near one keeps its many places: only what begins with zeros, or ends
 * with them, gains.
 */
export function powerFor(size: number, spread: number): number {
  if (!(spread > 0)) return 0;
  const small = needsPower(spread, 2) && size < BEGINS_WITH_ZEROS;
  const large = exponentOf(size, 2) >= LARGE_EXPONENT && decimalsFor(spread, 2) <= -3;
  if (!(small || large)) return 0;
  const power = Math.max(-MOST_POWER, Math.min(MOST_POWER, exponentOfThousands(size)));
  // Zeros at the end would claim figures that the uncertainty does not leave.
  return decimalsFor(spread, 2) + power < 0 ? power + 3 : power;
}

/**
 * What each text lacks after its decimal sign beside the longest of them, so that a column set flush right stands on
 * its decimal signs.
 */
export function missingPlaces(texts: readonly string[], { decimalSign }: Pick<Numbers, "decimalSign">): string[] {
  const places = texts.map((text) => text.split(decimalSign)[1]?.length ?? 0);
  const most = Math.max(0, ...places);
  return places.map((own) => {
    if (own === most) return "";
    return own === 0 ? `${decimalSign}${"0".repeat(most)}` : "0".repeat(most - own);
  });
}
