/** What a file is that was opened and holds no table, and what to do with it. */
export const files: Readonly<Record<string, string>> = {
  "a picture": "ein Bild",
  "Figures cannot be read from a picture: type them into a new study, or paste the cells of the table they come from":
    "Aus einem Bild lassen sich keine Zahlen lesen: bitte in eine neue Studie eintippen, oder die Zellen der Tabelle einfügen, aus der sie stammen",
  "a document of a word processor": "ein Dokument einer Textverarbeitung",
  "Open it, copy the cells of its table and paste them here":
    "Bitte öffnen, die Zellen der Tabelle kopieren und hier einfügen",
  "a spreadsheet in another format (ODS)": "eine Rechentabelle in einem anderen Format (ODS)",
  "Save it as XLSX or CSV, or copy its cells and paste them here":
    "Bitte als XLSX oder CSV speichern, oder die Zellen kopieren und hier einfügen",
  "a PDF document": "ein PDF-Dokument",
  "Open it, copy the cells of its table and paste them here; the figures of a certificate are one row of a budget":
    "Bitte öffnen, die Zellen der Tabelle kopieren und hier einfügen; die Werte eines Kalibrierscheins sind eine Zeile eines Budgets",
  "a spreadsheet or a document in an older format (such as XLS)":
    "eine Rechentabelle oder ein Dokument in einem älteren Format (etwa XLS)",
  "Open it and save it as XLSX or CSV, or copy its cells and paste them here":
    "Bitte öffnen und als XLSX oder CSV speichern, oder die Zellen kopieren und hier einfügen",
  "a packed file": "eine gepackte Datei",
  "Unpack it, and open the CSV or XLSX file that it holds": "Bitte entpacken und die CSV- oder XLSX-Datei darin öffnen",
  "a digital calibration certificate": "ein digitaler Kalibrierschein",
  "Its figures are one row of a budget: fill in a new study, or copy them into the table":
    "Seine Werte sind eine Zeile eines Budgets: bitte eine neue Studie ausfüllen, oder die Werte in die Tabelle übernehmen",
  "a page or a document in XML": "eine Seite oder ein Dokument in XML",
  "a budget as a table (CSV, XLSX or pasted cells). {instead}":
    "ein Budget als Tabelle (CSV, XLSX oder eingefügte Zellen). {instead}",
};
