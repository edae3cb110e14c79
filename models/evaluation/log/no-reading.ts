/**
 * What loggers write where they have no reading: dashes, asterisks, words for an overload, an open circuit or an error
 * (common practice), and the figures that SCPI 1999, volume 1, 7.2.1.4 and 7.2.1.5 give to infinity (9.9E37) and to "not a
 * number" (9.91E37).
 */
const WORDS =
  /^(?:[-–—*#_?.]{2,}|[-–—*?]|[+-]?(?:ov|ovl|ovld|ovr|ovfl|ol|o\.l\.?|over|overload|overflow|overrange|over ?range|under|underrange|inf|infinity)|nan|#?n\/?a|na|null|none|no ?data|no ?reading|open|short|err|error|#err(?:or)?|#value!|#n\/a|fail|fault|invalid|missing|bad|fehler|ausfall|überlauf|leer)$/i;

const LARGEST = 9.9e37;

/** Whether a cell stands for "no reading". @param own further words of this laboratory's loggers */
export const isNoReading = (text: string, own: readonly string[] = []): boolean => {
  const plain = text.trim();
  return WORDS.test(plain) || own.some((word) => word.trim().toLowerCase() === plain.toLowerCase());
};

/** Whether a figure stands for "no reading". */
export const isNoFigure = (value: number): boolean => Math.abs(value) >= LARGEST;
