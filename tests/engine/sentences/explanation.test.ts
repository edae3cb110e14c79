import { everyMessage, kelvin } from "./every-message.ts";

const shape = {
  cause: "shape",
  share: 0.9,
  inputs: [{ symbol: "δt_ax", distribution: "rectangular", share: 0.77 }],
  move: kelvin(0.0062, 4),
  effect: "narrows",
} as const;
const freedom = {
  cause: "degreesOfFreedom",
  share: 0.1,
  inputs: [{ symbol: "R_X", degreesOfFreedom: 9 }],
  move: kelvin(0.0057, 4),
  effect: "widens",
} as const;
const curvature = { cause: "curvature", share: 1, inputs: [], move: kelvin(0.02, 3), effect: "shifts" } as const;

everyMessage("explanation", [
  [
    { kind: "uncertainSpread", linearFactor: 2, factorNeeded: 3.754 },
    "With so few degrees of freedom the spread is itself uncertain: a larger factor than k = 2.00 is necessary, k = 3.75.",
    "Bei so wenigen Freiheitsgraden ist die Streuung selbst unsicher: Es ist ein größerer Faktor als k = 2,00 nötig, k = 3,75.",
  ],
  [
    {
      kind: "opposed",
      difference: kelvin(0.0005, 4),
      pushing: [{ ...shape, share: 1 }],
      takingBack: [{ ...freedom, share: -0.92 }],
    },
    "The endpoints differ by up to 0.0005 °C: the shape of the inputs, above all δt_ax (rectangular, 77 % of u²), narrows the interval by 0.0062 °C at one endpoint. Few degrees of freedom, above all R_X (ν = 9), take 0.0057 °C of this back.",
    "Die Endpunkte unterscheiden sich um bis zu 0,0005 °C: die Form der Eingangsverteilungen, vor allem δt_ax (Rechteckverteilung, 77 % von u²), verschmälert das Intervall an einem Endpunkt um 0,0062 °C. Die kleine Zahl der Freiheitsgrade, vor allem R_X (ν = 9), nimmt 0,0057 °C davon zurück.",
  ],
  [
    {
      kind: "opposed",
      difference: kelvin(0.0005, 4),
      pushing: [
        { ...shape, share: 0.7 },
        { ...freedom, share: 0.3 },
      ],
      takingBack: [{ ...curvature, share: -0.3 }],
    },
    "The endpoints differ by up to 0.0005 °C: the shape of the inputs, above all δt_ax (rectangular, 77 % of u²), narrows the interval by 0.0062 °C at one endpoint; few degrees of freedom, above all R_X (ν = 9), widen the interval by 0.0057 °C at one endpoint (70 % and 30 % of the push). The curvature of the model takes 0.020 °C of this back.",
    "Die Endpunkte unterscheiden sich um bis zu 0,0005 °C: die Form der Eingangsverteilungen, vor allem δt_ax (Rechteckverteilung, 77 % von u²), verschmälert das Intervall an einem Endpunkt um 0,0062 °C; die kleine Zahl der Freiheitsgrade, vor allem R_X (ν = 9), verbreitert das Intervall an einem Endpunkt um 0,0057 °C (70 % und 30 % der Verschiebung). Die Krümmung des Modells nimmt 0,020 °C davon zurück.",
  ],
  [
    { kind: "unresolved", remainder: kelvin(0.0003, 4) },
    "These parts are not resolved: 0.0003 °C is left over as the scatter of the trials.",
    "Diese Anteile sind nicht aufgelöst: 0,0003 °C bleiben als Streuung der Versuche übrig.",
  ],
  [
    { kind: "allowanceUnused", linearFactor: 2.31 },
    "The budget's k = 2.31 allows for degrees of freedom that the trials leave out.",
    "Der Faktor k = 2,31 des Budgets berücksichtigt Freiheitsgrade, die in den Versuchen nicht vorkommen.",
  ],
  [
    { kind: "noCause" },
    "The two intervals agree within the scatter of the trials: neither curvature, shape nor few degrees of freedom move the endpoints.",
    "Die beiden Intervalle stimmen innerhalb der Streuung der Versuche überein: Weder Krümmung noch Form noch eine kleine Zahl der Freiheitsgrade verschiebt die Endpunkte.",
  ],
  [
    { kind: "causes", difference: kelvin(0.0123, 4), causes: [shape, freedom] },
    "The endpoints differ by up to 0.0123 °C: 90 % of the difference comes from the shape of the inputs, above all δt_ax (rectangular, 77 % of u²); 10 % from few degrees of freedom, above all R_X (ν = 9).",
    "Die Endpunkte unterscheiden sich um bis zu 0,0123 °C. Von dieser Differenz stammen 90 % aus der Form der Eingangsverteilungen, vor allem δt_ax (Rechteckverteilung, 77 % von u²); 10 % aus der kleinen Zahl der Freiheitsgrade, vor allem R_X (ν = 9).",
  ],
  [
    { kind: "cancelling", difference: kelvin(0.0005, 4), causes: [shape, freedom, curvature] },
    "The endpoints differ by only 0.0005 °C because larger effects cancel: the shape of the inputs, above all δt_ax (rectangular, 77 % of u²), narrows the interval by 0.0062 °C at one endpoint; few degrees of freedom, above all R_X (ν = 9), widen the interval by 0.0057 °C at one endpoint; the curvature of the model shifts the interval by 0.020 °C at one endpoint.",
    "Die Endpunkte unterscheiden sich nur um 0,0005 °C, weil sich größere Einflüsse aufheben: die Form der Eingangsverteilungen, vor allem δt_ax (Rechteckverteilung, 77 % von u²), verschmälert das Intervall an einem Endpunkt um 0,0062 °C; die kleine Zahl der Freiheitsgrade, vor allem R_X (ν = 9), verbreitert das Intervall an einem Endpunkt um 0,0057 °C; die Krümmung des Modells verschiebt das Intervall an einem Endpunkt um 0,020 °C.",
  ],
  [
    { kind: "boundedShape", linearFactor: 2, factorNeeded: 1.857 },
    "A distribution with limits has no tails: a smaller factor than k = 2.00 gives the same coverage probability, k = 1.86.",
    "Eine Verteilung mit Grenzen hat keine Ausläufer: Ein kleinerer Faktor als k = 2,00 ergibt dieselbe Überdeckungswahrscheinlichkeit, k = 1,86.",
  ],
  [
    { kind: "coefficientsVanish" },
    "The sensitivity coefficients vanish at the estimates, but the model varies around them.",
    "Die Empfindlichkeitskoeffizienten verschwinden an den Schätzwerten, obwohl sich das Modell in deren Umgebung ändert.",
  ],
  [
    { kind: "curveShifts" },
    "The curvature shifts the whole interval to one side.",
    "Die Krümmung verschiebt das ganze Intervall nach einer Seite.",
  ],
  [
    { kind: "productsWiden" },
    "Products of deviations, which the first order neglects, widen the result.",
    "Produkte von Abweichungen, die die erste Ordnung vernachlässigt, verbreitern das Ergebnis.",
  ],
]);
