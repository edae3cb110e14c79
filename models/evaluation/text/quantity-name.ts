const GREEK: Readonly<Record<string, string>> = {
  α: "alpha",
  β: "beta",
  γ: "gamma",
  δ: "delta",
  Δ: "Delta",
  ε: "epsilon",
  θ: "theta",
  λ: "lambda",
  μ: "mu",
  µ: "mu",
  ν: "nu",
  ρ: "rho",
  σ: "sigma",
  τ: "tau",
  φ: "phi",
  ω: "omega",
  Ω: "Omega",
};
const RESERVED = new Set(["constructor", "prototype", "hasOwnProperty", "toString", "valueOf"]);

/** A name for an input quantity from what a table calls it: `Drift of the standard` → `driftOfTheStandard`. */
export function inputName(text: string, row: number, taken: ReadonlySet<string>): string {
  const latin = [...text].map((letter) => (GREEK[letter] === undefined ? letter : `${GREEK[letter]}_`)).join("");
  const words = latin
    .normalize("NFD")
    .replace(/[\u0300-\u036f]/g, "")
    .split(/[^A-Za-z0-9_]+/)
    .filter((word) => word !== "");
  const joined = words
    .map((word, i) =>
      words.length === 1
        ? word.replace(/^[A-Z](?=[a-z]{3,}$)/, (letter) => letter.toLowerCase())
        : i === 0
          ? word.toLowerCase()
          : word[0]!.toUpperCase() + word.slice(1).toLowerCase(),
    )
    .join("");
  const start = joined
    .replace(/^[^A-Za-z]+/, "")
    .replace(/_+$/, "")
    .slice(0, 56);
  const name = start === "" || RESERVED.has(start) ? `term${row}` : start;
  let unique = name;
  for (let i = 2; taken.has(unique); i++) unique = `${name}${i}`;
  return unique;
}
