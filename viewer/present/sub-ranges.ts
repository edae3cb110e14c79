/** A sub-range of ITS-90 as a form offers it: its ends in °C, and the coefficients of its deviation function. */
export interface OfferedSubRange {
  readonly number: string;
  readonly low: number;
  readonly high: number;
  readonly coefficients: readonly string[];
}

const range = (number: string, low: number, high: number, ...coefficients: string[]): OfferedSubRange => ({
  number,
  low,
  high,
  coefficients,
});

/** The sub-ranges of ITS-90 for platinum (Metrologia 27 (1990) 3–10, table 5), as models/platinum evaluates them. */
export const SUB_RANGES: readonly OfferedSubRange[] = [
  range("1", -259.3467, 0.01, "a", "b", "c1", "c2", "c3", "c4", "c5"),
  range("2", -248.5939, 0.01, "a", "b", "c1", "c2", "c3"),
  range("3", -218.7916, 0.01, "a", "b", "c1"),
  range("4", -189.3442, 0.01, "a", "b"),
  range("5", -38.8344, 29.7646, "a", "b"),
  range("6", 0, 961.78, "a", "b", "c", "d", "ratioAtAl"),
  range("7", 0, 660.323, "a", "b", "c"),
  range("8", 0, 419.527, "a", "b"),
  range("9", 0, 231.928, "a", "b"),
  range("10", 0, 156.5985, "a"),
  range("11", 0, 29.7646, "a"),
];

export const subRangeNumbered = (number: string): OfferedSubRange | undefined =>
  SUB_RANGES.find((one) => one.number === number);
