// Writes the ten budgets of invented laboratories: `node tests/server/intake/budgets/make.mjs`. Their figures stand
// here and, worked out independently, in tests/reference/budgets.py.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import writeXlsx from "write-excel-file/node";

const folder = import.meta.dirname;
const save = (name, bytes) => writeFileSync(join(folder, name), bytes);

/** Text in Windows-1252, as a spreadsheet program of a western office saves it. */
const western = (text) => Buffer.from(text.replaceAll("√", "").replaceAll("∞", ""), "latin1");

const cell = (value) => (value === null || value === "" ? null : typeof value === "object" ? value : { value });
const sheet = (name, rows) => ({ sheet: name, data: rows.map((row) => row.map(cell)) });

async function workbook(name, sheets, formulas = {}) {
  const bytes = await writeXlsx(sheets.map(([title, rows]) => sheet(title, rows))).toBuffer();
  const entries = unzipSync(new Uint8Array(bytes));
  for (const [path, byCell] of Object.entries(formulas)) {
    let xml = strFromU8(entries[path]);
    for (const [address, formula] of Object.entries(byCell)) {
      const before = xml;
      xml = xml.replace(new RegExp(`(<c r="${address}"[^>]*>)(<v>)`), `$1<f>${formula}</f>$2`);
      if (xml === before) throw new Error(`no value at ${address}`);
    }
    entries[path] = strToU8(xml);
  }
  // One time for all entries, so that the file is the same whenever it is made.
  save(
    name,
    zipSync(Object.fromEntries(Object.entries(entries).map(([path, data]) => [path, [data, { mtime: "2026-01-01" }]]))),
  );
}

// 1. Brackenholt: the form of EA-4/02, 4.1, with the row of the result and the expanded uncertainty below it.
save(
  "brackenholt.csv",
  `Uncertainty budget for the calibration of BH-7 at 25 degC,,,,,
,,,,,
Quantity X_i,Estimate x_i / °C,Standard uncertainty u(x_i) / mK,Probability distribution,Sensitivity coefficient c_i,Uncertainty contribution u_i(y) / mK
t_X,25.0132,1.2,normal,1,1.2
t_S,25.0104,2.5,normal,-1,-2.5
δt_D,0,1.7,rectangular,-1,-1.7
δt_B,0,2.9,rectangular,1,2.9
Δt,0.0028,,,,4.4
U = k·u(Δt) with k = 2,,,,,8.8
`,
);

// 2. Eschenried: German office, Windows-1252, units in the cells, groups with subtotals.
save(
  "eschenried.csv",
  western(`Messunsicherheitsbudget;;;;;;
Prüfling ER-12, Vergleich bei 37 °C;;;;;;
;;;;;;
Einflussgröße;Schätzwert;Angabe;Verteilung;Teiler;Empfindlichkeitskoeffizient;Freiheitsgrade
Normal;;;;;;
Kalibrierschein;2,0 mK;5,0 mK (k=2);normal;2 (k=2);1;unendlich
Drift;0;±3 mK;rechteckig;1,73;1;unendlich
Zwischensumme Normal;;3,0 mK;;;;
;;;;;;
Bad;;;;;;
Gradient;0;±2,5 mK;Rechteck;Wurzel(3);1;
Stabilität;0;1,2 mK;Typ A;1;1;11
Zwischensumme Bad;;1,9 mK;;;;
Kombinierte Standardunsicherheit;;3,55 mK;;;;
Erweiterte Unsicherheit (k = 2);;7,1 mK;;;;
`),
);

// 3. Valmorin: French workbook, a merged title, headings over two rows with a merged cell, units in a column.
await workbook("valmorin.xlsx", [
  [
    "Bilan",
    [
      [{ value: "Bilan d'incertitude, sonde VM-3 à 60 °C", columnSpan: 8 }],
      [],
      [
        "Grandeur",
        "Estimation",
        { value: "Incertitude", columnSpan: 2 },
        null,
        "Loi",
        "Diviseur",
        "Coefficient de sensibilité",
        "ddl",
      ],
      ["", "", "Valeur", "Unité", "", "", "", ""],
      ["Certificat de l'étalon", 0.004, 0.01, "°C", "normale", 2, 1, "infini"],
      ["Dérive de l'étalon", 0, 0.006, "°C", "rectangulaire", "√3", 1, "∞"],
      ["Lecture du pont", 0, 0.002, "°C", "triangulaire", 2.45, -1, "∞"],
      ["Répétabilité", 0.0012, 0.0015, "°C", "A", 1, 1, 9],
      ["Incertitude-type composée", null, 0.0063, "°C", null, null, null, null],
      ["Incertitude élargie (k = 2)", null, 0.0126, "°C", null, null, null, null],
    ],
  ],
]);

// 4. Robledal: Spanish workbook, data on one sheet and the budget on another, by formulas.
await workbook(
  "robledal.xlsx",
  [
    [
      "Datos",
      [
        ["Certificado, U", 12],
        ["Deriva, a", 6],
        ["Baño, a", 9],
        ["Repetibilidad, s", 2],
        ["Lecturas", 10],
      ],
    ],
    [
      "Presupuesto",
      [
        ["Laboratorio Robledal", null, null, null, null, null, null, null],
        [
          "Magnitud",
          "Símbolo",
          "Valor estimado / mK",
          "Incertidumbre / mK",
          "Distribución",
          "Divisor",
          "Coef. de sensibilidad",
          "Grados de libertad",
        ],
        ["Certificado del patrón", "t_P", 0, 12, "normal", 2, 1, "infinito"],
        ["Deriva del patrón", "δt_d", 0, 6, "rectangular", 1.7320508, 1, "infinito"],
        ["Gradiente del baño", "δt_b", 0, 9, "rectangular", 1.7320508, -1, "infinito"],
        ["Repetibilidad", "t_r", -4, 2, "t de Student", 1, 1, 9],
        ["Incertidumbre combinada", null, null, 8.8882, null, null, null, null],
      ],
    ],
  ],
  { "xl/worksheets/sheet2.xml": { D3: "Datos!B1", D4: "Datos!B2", D5: "Datos!B3", D6: "Datos!B4", D7: "SQRT(79)" } },
);

// 5. Poggiolo: Italian, UTF-16 with tabs, type A or B in place of distributions.
save(
  "poggiolo.txt",
  Buffer.concat([
    Buffer.from([0xff, 0xfe]),
    Buffer.from(
      [
        "Sorgente di incertezza\tStima\tu.m.\tIncertezza\tTipo\tDivisore\tCoeff. sens.\tgdl\tNote",
        "Certificato del campione\t0,0\tmK\t8,0\tB\t2\t-1\t∞\tcertificato 2025",
        "Deriva\t0,0\tmK\t4,0\tB\t√3\t-1\t∞\tstorico",
        "Risoluzione\t0,0\tmK\t0,5\tB\tsqrt(3)\t1\t∞\tdisplay",
        "Ripetibilità\t1,5\tmK\t1,1\tA\t1\t1\t7\totto letture",
        "Incertezza tipo composta\t\tmK\t4,76\t\t\t\t\t",
        "",
      ].join("\r\n"),
      "utf16le",
    ),
  ]),
);

// 6. Quillmere: pasted cells, units in a row of their own, percentages of u², endless degrees of freedom in three ways.
save(
  "quillmere.txt",
  [
    "Source\tValue\tValue ±\tDistribution\tDivisor\tci\tui(y)\tνi\t% of u²",
    "\tmK\tmK\t\t\t\tmK\t\t%",
    "Reference certificate\t0\t10\tNormal\t2.00\t1\t5.00\t1E+99\t46.3",
    "Reference drift\t0\t6\tRect.\t1.73\t1\t3.46\t-\t22.2",
    "Bath uniformity\t0\t7\tU-shaped\t1.414\t0.7\t3.46\t∞\t22.2",
    "Repeatability\t-1.25\t2.25\tNormal\t1\t1\t2.25\t5\t9.4",
    "Total\t\t\t\t\t\t7.35\t\t100",
    "",
  ].join("\n"),
);

// 7. Weidenhag: German workbook, factors in place of divisors, standard uncertainties beside them.
await workbook("weidenhag.xlsx", [
  [
    "Budget",
    [
      ["Budget WH-4 bei 90 °C", null, null, null, null, null, null],
      [
        "Eingangsgröße",
        "Halbbreite bzw. U",
        "Einheit",
        "Verteilungsform",
        "Faktor",
        "Standardunsicherheit",
        "Bemerkung",
      ],
      ["Kalibrierschein", 9, "mK", "Normalverteilung", 0.5, 4.5, "k = 2"],
      ["Drift", 5, "mK", "Rechteckverteilung", 0.577, 2.885, null],
      ["Auflösung", 1, "mK", "Dreieckverteilung", 0.408, 0.408, null],
      ["Wärmeableitung", 4, "mK", "Gleichverteilung", 0.577, 2.308, null],
      ["Summe", null, "mK", null, null, 5.83, null],
    ],
  ],
]);

// 8. Tarnwick: two columns that could both be the uncertainty, and a coefficient with its unit.
save(
  "tarnwick.csv",
  `"Component","Estimate","Unit","Uncertainty 2025","Uncertainty 2026","Distribution","Divisor","Sensitivity"
"Bridge reading","0","mΩ","0.8","0.6","normal","2","2.6 K/Ω"
"Certificate","0","mK","9","8","normal","2","1"
"Immersion","0","mK","5","5","rectangular","√3","1"
`,
);

// 9. Sablonnet: French, semicolons with a byte-order mark, limits in two columns and a coverage factor left out.
save(
  "sablonnet.csv",
  `\uFEFFsep=;
Composante;Valeur (mK);Limite inférieure (mK);Limite supérieure (mK);Incertitude élargie (mK);Sensibilité
Étalon;0,5;;;7,0;1
Dérive;;-4,0;4,0;;1
Autoéchauffement;;0,0;3,0;;-1
Incertitude composée;;;;4,27;
`,
);

// 10. Farrowby: one sheet with a table for each temperature, words of its own for headings.
await workbook("farrowby.xlsx", [
  ["Notes", [["Kept by the bath room."]]],
  [
    "Points",
    [
      ["Bath at 40 °C", null, null, null, null],
      ["Contributor", "Half-range (mK)", "Shape", "Sens. coeff.", "Basis"],
      ["Reference", 6, "rect", 1, "certificate"],
      ["Bath", 3, "rect", 1, "survey"],
      [],
      ["Bath at 80 °C", null, null, null, null],
      ["Contributor", "Half-range (mK)", "Shape", "Sens. coeff.", "Basis"],
      ["Reference", 6, "rect", 1, "certificate"],
      ["Bath", 9, "tri", 1, "survey"],
      ["Stirrer", 4, "arcsine", -0.5, "survey"],
    ],
  ],
]);
