/** What a cell of the quantity's column states as its symbol: `t_S`, `δt_iX`, `R0`, `x₁`; words are none. */
export function symbolIn(text: string): string | null {
  const bare = text.trim();
  if (bare.length > 24 || /\s/.test(bare)) return null;
  if (/^[dδΔ∂]?\p{L}[′']?(?:_\{?[\p{L}\d,.]+\}?|[₀-₉ₐ-ₜ\d]{1,3})?$/u.test(bare)) return bare;
  return null;
}

/** The symbol of the n-th input where none is stated, after GUM 4.1.4: a quantity's name is no symbol. */
export const placeholderSymbol = (n: number): string => `x_${n}`;
