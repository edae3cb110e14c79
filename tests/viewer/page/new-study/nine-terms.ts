/** Nine terms of a comparison at 37 °C, in °C: symbol, quantity, value, how, figure, k, ν. */
export const NINE = [
  ["t_cal", "certificate of the reference", "-0,006", "c", "0,008", "2", ""],
  ["t_dr", "drift of the reference", "0", "r", "0,004", "", ""],
  ["t_ro", "readout of the reference", "0", "r", "0,003", "", ""],
  ["t_ax", "vertical difference", "0", "r", "0,005", "", ""],
  ["t_rad", "horizontal difference", "0", "r", "0,004", "", ""],
  ["t_st", "stability", "0", "r", "0,004", "", ""],
  ["t_sh", "self-heating", "0", "r", "0,003", "", ""],
  ["t_imm", "stem conduction", "0", "r", "0,003", "", ""],
  ["t_rep", "repeatability", "0", "s", "0,002", "", "9"],
] as const;
/** What is typed for each way of stating a width. */
export const HOW: Readonly<Record<string, string>> = { c: "U (k=2)", r: "rectangular", s: "standard" };

/** √Σu², JCGM 100, 5.1.2: U/k for the certificate, a/√3 for limits. */
export const COMBINED = Math.sqrt(
  NINE.reduce((sum, [, , , how, figure]) => {
    const value = Number(figure.replace(",", "."));
    const u = how === "c" ? value / 2 : how === "r" ? value / Math.sqrt(3) : value;
    return sum + u * u;
  }, 0),
);
