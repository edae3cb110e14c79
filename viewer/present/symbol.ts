/** A quantity's symbol taken apart at its underscore, with any prime after the subscript: `R_X′` is R, X, ′. */
export interface SymbolParts {
  readonly base: string;
  readonly subscript: string;
  readonly primes: string;
}

export function symbolParts(symbol: string): SymbolParts {
  const primes = /′+$/.exec(symbol)?.[0] ?? "";
  const bare = symbol.slice(0, symbol.length - primes.length);
  const at = bare.indexOf("_");
  return at <= 0
    ? { base: bare, subscript: "", primes }
    : { base: bare.slice(0, at), subscript: bare.slice(at + 1), primes };
}

/** A symbol as plain text, for reading aloud, an attribute or a terminal: "δt rep". */
export const symbolText = (symbol: string): string => {
  const { base, subscript, primes } = symbolParts(symbol);
  return `${base}${subscript === "" ? "" : ` ${subscript}`}${primes}`;
};

/** The symbol of an input; its name where a record's part names something that is no input. */
export const symbolOf = (quantities: Readonly<Record<string, { readonly symbol: string }>>, name: string): string =>
  Object.hasOwn(quantities, name) ? quantities[name]!.symbol : name;
