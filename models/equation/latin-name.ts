import { isQuantityName } from "../../engine/index.ts";

const GREEK: Readonly<Record<string, string>> = {
  α: "alpha",
  β: "beta",
  γ: "gamma",
  δ: "delta",
  ε: "epsilon",
  ζ: "zeta",
  η: "eta",
  θ: "theta",
  ϑ: "theta",
  ι: "iota",
  κ: "kappa",
  λ: "lambda",
  μ: "mu",
  ν: "nu",
  ξ: "xi",
  ο: "omicron",
  π: "pi",
  ρ: "rho",
  σ: "sigma",
  ς: "sigma",
  τ: "tau",
  υ: "upsilon",
  φ: "phi",
  ϕ: "phi",
  χ: "chi",
  ψ: "psi",
  ω: "omega",
};

/**
 * The name by which a study and its record know a quantity whose symbol has other letters than a name may have: Greek ones
 * by their names, `δt_ax` is `deltat_ax`; or `null` where no name is left.
 *
 * @param taken names that others have; the next free number is added to one of them
 */
export function latinName(symbol: string, taken: ReadonlySet<string>): string | null {
  const letters = [...symbol.normalize("NFKD")].map((letter) => {
    const lower = GREEK[letter];
    if (lower !== undefined) return lower;
    const upper = GREEK[letter.toLowerCase()];
    if (upper !== undefined) return upper[0]!.toUpperCase() + upper.slice(1);
    return letter === "′" ? "_prime" : /[A-Za-z0-9_]/.test(letter) ? letter : "";
  });
  const name = letters.join("");
  for (let n = 1; n < 100; n += 1) {
    const numbered = n === 1 ? name : `${name}_${n}`;
    if (!isQuantityName(numbered)) return null;
    if (!taken.has(numbered)) return numbered;
  }
  return null;
}
