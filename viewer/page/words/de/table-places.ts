/** Where something stands in a table, in German: columns and rows keep their letters, numbers and headings. */
export const TABLE_PLACES: readonly (readonly [RegExp, string])[] = [
  [/\bcolumns (?=[A-Z]{1,3} to )/g, "den Spalten "],
  [/(?<=\b[A-Z]{1,3}) to (?=[A-Z]{1,3}\b)/g, " bis "],
  [/\bcolumn (?=[A-Z]{1,3}\b)/g, "Spalte "],
  [/\bColumn (?=[A-Z]{1,3}\b)/g, "Spalte "],
  [/\brows (?=\d)/g, "den Zeilen "],
  [/\b[Rr]ow (?=\d)/g, "Zeile "],
  [/(?<=\d) and (?=\d)/g, " und "],
  [/(?<=\)) and (?=Spalte|den Spalten)/g, " und "],
  [/(?<=\)) or (?=Spalte)/g, " oder "],
  [/(?<=[A-Z]) and (?=den Spalten)/g, " und "],
  [/\bthe uncertainty\b/g, "der Unsicherheit"],
];
