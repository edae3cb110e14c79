/** A number as a program writes it, with the minus that people read (U+2212), in its exponent too. */
export const withMinus = (number: string): string => number.replaceAll("-", "−");
