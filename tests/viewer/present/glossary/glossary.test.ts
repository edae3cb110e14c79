import { expect, test } from "vitest";
import { glossary } from "../../../../viewer/present/glossary/index.ts";
import { glossaryPieces } from "../../../../viewer/present/glossary/symbols.ts";

// Clauses of definitions. JCGM 101:2008, clause 3, as its terms are numbered in a public copy of its text; JCGM 200:2012,
// clause 2, from memory.
test.each([
  ["coverage-interval", "coverage interval", ["JCGM 101:2008, 3.12", "JCGM 200:2012, 2.36"]],
  ["coverage-probability", "coverage probability", ["JCGM 101:2008, 3.13", "JCGM 200:2012, 2.37"]],
  ["coverage-factor", "coverage factor", ["JCGM 100:2008, 2.3.6", "JCGM 200:2012, 2.38"]],
  ["numerical-tolerance", "numerical tolerance", ["JCGM 101:2008, 3.20 and 7.9.2"]],
  ["effective-degrees-of-freedom", "effective degrees of freedom", ["JCGM 100:2008, G.4.1, equation G.2b"]],
])("%s is the standard's term", (id, term, sources) => {
  const word = glossary.find((one) => one.id === id)!;
  expect(word.en.term).toBe(term);
  expect(word.sources).toEqual(sources);
});

test.each(["study", "run", "record", "endpoint", "δ", "p", "k", "ν_eff", "linear budget", "trial"])(
  "%s is explained",
  (asked) => {
    expect(glossary.some(({ symbol, en }) => symbol === asked || en.term === asked)).toBe(true);
  },
);

test("every word has an address of its own and both languages in full sentences", () => {
  expect(new Set(glossary.map(({ id }) => id)).size).toBe(glossary.length);
  for (const { id, en, de } of glossary) {
    expect(id).toMatch(/^[a-z]+(-[a-z]+)*$/);
    for (const text of [en, de]) expect(text.meaning, id).toMatch(/^[A-ZÄÖÜ].*[.…)]$/su);
    expect(de.meaning).not.toBe(en.meaning);
  }
});

test("symbols are set apart from the words about them", () => {
  expect(glossaryPieces("The d_low of ν_eff, u(y).")).toEqual([
    { text: "The " },
    { symbol: "d_low" },
    { text: " of " },
    { symbol: "ν_eff" },
    { text: ", u(y)." },
  ]);
});
