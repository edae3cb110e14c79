/** Numbers of a sentence in order of size as texts, whichever decimal sign it has. Clauses of documents are left out. */
export const numbersIn = (sentence: string): readonly string[] =>
  [
    ...sentence
      .replaceAll(/\((?:JCGM|IEC)[^)]*\)/g, "")
      .replaceAll(/(\d),(\d)/g, "$1.$2")
      .matchAll(/−?\d+(?:\.\d+)?/g),
  ]
    .map(([number]) => number)
    .toSorted();
