// A number with the unit that follows it; a name with its subscript and primes; a power. In this order of preference.
const NUMBER = String.raw`(?<number>\d[\d\s\u202f]*(?:[.,]\d+)?(?:\s(?:°C|%|[A-ZΩµ]?[a-zA-ZΩµ]{1,3}(?:[²³]|(?=/|\b)))(?:/[a-zA-ZΩ]+[²³]?)?(?![\p{L}_(]))?)`;
const NAME = String.raw`(?<name>\p{L}[\p{L}\p{Nd}]*(?:_[\p{L}\p{Nd}]+(?:,[\p{L}\p{Nd}]+(?![\p{L}\p{Nd}]*_))?)?′*)`;
const PIECES = new RegExp(`${NUMBER}|${NAME}|(?<power>\\^)`, "gu");

/** Words of prose that are one letter long. */
const ONE_LETTER_WORDS = new Set(["a"]);

/** A piece of an equation: words and signs as they stand, a quantity, or what is raised as a power. */
export type EquationPiece =
  | { readonly text: string }
  | { readonly symbol: string }
  | { readonly raised: readonly EquationPiece[] };

/** Whether a name in an equation is a quantity; functions, units and words are not, and stand upright. */
const isQuantity = (name: string, known: ReadonlySet<string>): boolean =>
  known.has(name) ||
  name.includes("_") ||
  (/^\p{L}′*$/u.test(name) && !ONE_LETTER_WORDS.has(name)) ||
  /^[δΔ]\p{L}′*$/u.test(name);

/**
 * A model equation as print sets it, from its plain text: one list of pieces for each equation (semicolons part them).
 *
 * @param known symbols of the model, for those longer than a letter
 */
export const equationLines = (equation: string, known: ReadonlySet<string>): (readonly EquationPiece[])[] =>
  equation.split(/;\s+/).map((line) => piecesOf(line, known));

/** Symbols of all quantities of a record, for its equation. */
export const symbolsOf = (record: {
  readonly inputs: Readonly<Record<string, { readonly symbol: string }>>;
  readonly measurands: Readonly<Record<string, { readonly symbol: string }>>;
}): ReadonlySet<string> =>
  new Set([...Object.values(record.inputs), ...Object.values(record.measurands)].map(({ symbol }) => symbol));

function piecesOf(text: string, known: ReadonlySet<string>): EquationPiece[] {
  const pieces: EquationPiece[] = [];
  const add = (words: string): void => {
    if (words !== "") pieces.push({ text: words });
  };
  let rest = 0;
  for (const match of text.matchAll(PIECES)) {
    if (match.index < rest) continue;
    add(text.slice(rest, match.index));
    rest = match.index + match[0].length;
    const { name, power } = match.groups!;
    if (power !== undefined) {
      const raised = operand(text, rest);
      pieces.push({ raised: piecesOf(/^\(.*\)$/s.test(raised) ? raised.slice(1, -1) : raised, known) });
      rest += raised.length;
    } else if (name !== undefined && isQuantity(name, known)) pieces.push({ symbol: name });
    else add(match[0].replace(/ (?=\P{L}*$|°C|\p{L}+)/gu, "\u00a0"));
  }
  add(text.slice(rest));
  return pieces;
}

/** What a `^` raises: a bracket with all that is in it, or the signs and letters up to the next space or operator. */
function operand(text: string, from: number): string {
  if (text[from] !== "(") return /^[−+-]?[\p{L}\p{Nd}_.′]*/u.exec(text.slice(from))![0];
  let depth = 0;
  for (let i = from; i < text.length; i++) {
    if (text[i] === "(") depth += 1;
    if (text[i] === ")") depth -= 1;
    if (depth === 0) return text.slice(from, i + 1);
  }
  return text.slice(from);
}
