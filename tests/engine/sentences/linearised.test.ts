import { everyMessage } from "./every-message.ts";

everyMessage("linearised", [
  [
    { kind: "factor", symbol: "e", factor: 1.837, linearFactor: 2, probability: 0.9545 },
    "With the stated distributions in place of a normal, the linearised model needs k = 1.84 for e ± k·u to hold 95.45 % (by convolution, without trials); the budget takes k = 2.00.",
    "Mit den angegebenen Verteilungen anstelle einer Normalverteilung braucht das linearisierte Modell k = 1,84, damit e ± k·u zu 95,45 % überdeckt (durch Faltung, ohne Versuche); das Budget nimmt k = 2,00.",
  ],
  [
    { kind: "noFactor", symbol: "e" },
    "The linear budget has no uncertainty of e that a factor k could multiply.",
    "Das lineare Budget hat keine Unsicherheit von e, die ein Faktor k vervielfachen könnte.",
  ],
  [
    { kind: "decisive", inputs: ["δt_ax"], factor: 1.93 },
    "The distribution of δt_ax matters most to this k: were it normal with the same standard uncertainty, k would be 1.93.",
    "Für dieses k zählt die Verteilung von δt_ax am meisten: Wäre sie normal mit derselben Standardunsicherheit, so wäre k = 1,93.",
  ],
  [
    { kind: "nothingVaries" },
    "In the linearised model nothing varies, so it has no distribution.",
    "Im linearisierten Modell variiert nichts; es hat keine Verteilung.",
  ],
  [
    { kind: "noStandardDeviation", inputs: ["R_X"] },
    "The distribution of the linearised model is not given: R_X has no standard deviation (a t with ν ≤ 2).",
    "Die Verteilung des linearisierten Modells wird nicht angegeben: R_X hat keine Standardabweichung (t-Verteilung mit ν ≤ 2).",
  ],
  [
    { kind: "noStandardDeviation", inputs: ["R_X", "R_S"] },
    "The distribution of the linearised model is not given: R_X and R_S have no standard deviation (a t with ν ≤ 2).",
    "Die Verteilung des linearisierten Modells wird nicht angegeben: R_X und R_S haben keine Standardabweichung (t-Verteilung mit ν ≤ 2).",
  ],
  [
    { kind: "copula", inputs: ["X_1", "X_2"] },
    "The distribution of the linearised model is not given: X_1 and X_2 depend on one another and are not jointly normal or t, so only trials give the distribution of their sum.",
    "Die Verteilung des linearisierten Modells wird nicht angegeben: X_1 und X_2 hängen voneinander ab und sind nicht gemeinsam normal- oder t-verteilt; die Verteilung ihrer Summe geben nur Versuche.",
  ],
  [
    { kind: "accuracy" },
    "The distribution of the linearised model is not given: its endpoints cannot be computed to δ/1000, since the coverage probability is too near 1 or the tails are too heavy.",
    "Die Verteilung des linearisierten Modells wird nicht angegeben: Ihre Endpunkte lassen sich nicht auf δ/1000 berechnen, weil die Überdeckungswahrscheinlichkeit zu nahe an 1 liegt oder die Ausläufer zu schwer sind.",
  ],
]);
