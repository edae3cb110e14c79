// Tables as laboratories keep them, each with a habit of its own; expected: the root sum of squares by hand (JCGM 100, 5.1.2)
// of U/k (4.3.3), a/√3 (4.3.7) and standard uncertainties.
import { expect, test } from "vitest";
import { InputError } from "../../../../engine/index.ts";
import { readBudgetTable, writtenRows } from "../../../../models/index.ts";

const r3 = Math.sqrt(3);

test.each<[habit: string, text: string, u: number, inputs: number]>([
  [
    "an abbreviated heading of symbols, and sums below",
    `Messunsicherheitsbudget Pt100 Nr. 17 bei 72 °C;;;;;;;;;
;;;;;;;;;
Einflussgröße;Formelz.;Schätzwert;Einheit;Halbweite;Verteilung;Teiler;u(xi);ci;ui(y)
Normalthermometer, Kalibrierschein;tN;72,013;°C;0,010;normal;2;0,005;1;0,005
Drift des Normals;dtD;0;°C;0,006;Rechteck;1,732;0,0035;1;0,0035
Auflösung Anzeige;dtA;0;°C;0,005;Rechteck;1,732;0,0029;-1;-0,0029
Kombinierte Standardunsicherheit;;;;;;;;;0,0067`,
    Math.hypot(0.005, 0.006 / r3, 0.005 / r3),
    3,
  ],
  [
    "± as a heading, and the coverage factor beside the distribution",
    `Komponente\tWert\t±\tVerteilung\tQuelle
Normal\t0\t4 mK\tNormal k=2\tSchein 2025-11
Drift\t0\t3 mK\tRechteck\tAnnahme`,
    Math.hypot(2, 3 / r3),
    2,
  ],
  [
    "the coverage factor beside the name, and who made it below the sums",
    `,Symbol,Component,Half-width a,Unit,Distribution
,δ_ref,Reference (expanded k=2),10,mK,Normal
,δ_grad,Gradient,6,mK,Uniform
,,uc,6.1,mK,
,Prepared by: M. Harrow,,Date: 2026-02-03,,`,
    Math.hypot(5, 6 / r3),
    2,
  ],
  [
    "a merged heading over columns that have headings of their own",
    `Größe;Schätzwert;Unsicherheit;;;Empfindlichkeit;Beitrag / mK
;;Wert / mK;Verteilung;Divisor;;
Kalibrierung Normal;0;9;normal;2;1;4,5
Drift;0;4;rechteckig;1,73;1;2,3
Standardmessunsicherheit;;;;;;5,0`,
    Math.hypot(4.5, 4 / r3),
    2,
  ],
  [
    "names under “Beitrag”, units in the cells",
    `Beitrag;Angabe;Teiler;Empfindlichkeit
Kalibrierschein;8,0 mK;2;1
Kurzzeitstabilität;± 3,5 mK;√3;1
Summe (quadratisch);4,5 mK;;`,
    Math.hypot(4, 3.5 / r3),
    2,
  ],
  [
    "ν_i and ν_eff spelt out, k and U below",
    `Source,Distribution,u_i (mK),nu_i,c_i
Repeated readings,normal,2.1,9,1
Reference,normal,4,inf,1
u_c,,4.52,,
nu_eff,,192,,
k,,1.97,,
U95,,8.9,,`,
    Math.hypot(2.1, 4),
    2,
  ],
])("%s", (_, text, u, inputs) => {
  const reading = readBudgetTable(writtenRows(text, "table"), { title: "table" });
  expect(reading.terms).toHaveLength(inputs);
  // What is printed with two digits is computed from the figures that it was rounded from.
  expect(Math.abs(reading.combined! - u)).toBeLessThan(u * 2e-3);
});

test("ν of a row under “nu_i” reaches the statement", () => {
  const reading = readBudgetTable(writtenRows("Source,u (mK),nu_i,c\nReadings,2.1,9,1\nReference,4,inf,1", "table"), {
    title: "table",
  });
  expect(reading.terms[0]!.statement).toMatchObject({ distribution: "t", degreesOfFreedom: 9 });
});

// Each took minutes or ended the call stack before cells had a length that says anything.
test.each([
  ["a coefficient repeated", "k=".repeat(80_000)],
  ["brackets within brackets", "(".repeat(80_000)],
  ["one figure and many spaces", `1${" ".repeat(80_000)}%`],
])("a cell of 80 kB is refused in a moment: %s", (_, cell) => {
  const text = `Quantity,Value,Unit,Uncertainty,Distribution,Divisor\n${cell},1,Ω,1,${cell},2\nb,1,Ω,${cell},normal,2\n`;
  expect(() => readBudgetTable(writtenRows(text, "table"), { title: "table" })).toThrow(InputError);
});
