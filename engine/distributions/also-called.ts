import type { DistributionName } from "./titles.ts";

/** What the trade, textbooks and programs also call a distribution, by the name in small letters without signs. Common practice. */
const ALSO_CALLED: Readonly<Record<string, DistributionName>> = {
  gaussian: "normal",
  gauss: "normal",
  uniform: "rectangular",
  box: "rectangular",
  rect: "rectangular",
  ushaped: "arcsine",
  ushape: "arcsine",
  sine: "arcsine",
  student: "t",
  studentt: "t",
  tdistribution: "t",
  typea: "readings",
  observations: "readings",
  repeatability: "readings",
  exact: "constant",
  fixed: "constant",
  empirical: "sample",
  bootstrap: "sample",
  isosceles: "triangular",
};

/** The name here of a distribution that somebody calls otherwise, or `null`. */
export const calledHere = (name: string): DistributionName | null =>
  ALSO_CALLED[
    name
      .toLowerCase()
      .replace(/[^a-z]/g, "")
      .replace(/distribution$/, (end, at) => (at > 1 ? "" : end))
  ] ?? null;
