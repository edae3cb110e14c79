import { everyMessage, kelvin } from "./every-message.ts";

const byPairs = {
  difference: kelvin(0.00212, 5),
  standardError: kelvin(0.00003, 5),
  tolerance: kelvin(0.005, 5),
  margin: kelvin(0.003, 3),
} as const;
const PAIRS =
  "Paired trials (each also through the linearised model, whose distribution is known exactly, so that only what the two differ by is left to chance) give d =";
const PAARE =
  "Gepaarte Versuche (jeder auch durch das linearisierte Modell, dessen Verteilung genau bekannt ist, sodass nur der Unterschied dem Zufall überlassen bleibt) ergeben d =";

everyMessage("paired", [
  [
    { kind: "stands", decision: "validated", ...byPairs, trialsNeeded: null },
    `${PAIRS} 0.00212 °C with standard error 0.00003 °C, δ = 0.00500 °C: the verdict stands.`,
    `${PAARE} 0,00212 °C mit der Standardabweichung 0,00003 °C, δ = 0,00500 °C: Das Urteil bleibt.`,
  ],
  [
    { kind: "stands", decision: "notValidated", ...byPairs, trialsNeeded: 3_100_000 },
    `${PAIRS} 0.00212 °C with standard error 0.00003 °C, δ = 0.00500 °C: the verdict stands; by themselves about 3\u202f100\u202f000 trials would show it.`,
    `${PAARE} 0,00212 °C mit der Standardabweichung 0,00003 °C, δ = 0,00500 °C: Das Urteil bleibt; allein zeigten es erst etwa 3\u202f100\u202f000 Versuche.`,
  ],
  [
    { kind: "otherwise", decision: "validated", ...byPairs, trialsNeeded: 7000 },
    `${PAIRS} 0.00212 °C with standard error 0.00003 °C, δ = 0.00500 °C: with more trials the budget would be validated; by themselves about 7000 trials would show it.`,
    `${PAARE} 0,00212 °C mit der Standardabweichung 0,00003 °C, δ = 0,00500 °C: Mit mehr Versuchen wäre das Budget validiert; allein zeigten es erst etwa 7000 Versuche.`,
  ],
  [
    { kind: "otherwise", decision: "notValidated", ...byPairs, trialsNeeded: 7000 },
    `${PAIRS} 0.00212 °C with standard error 0.00003 °C, δ = 0.00500 °C: with more trials the budget would not be validated; by themselves about 7000 trials would show it.`,
    `${PAARE} 0,00212 °C mit der Standardabweichung 0,00003 °C, δ = 0,00500 °C: Mit mehr Versuchen wäre das Budget nicht validiert; allein zeigten es erst etwa 7000 Versuche.`,
  ],
  [
    { kind: "undecided", decision: "undecided", ...byPairs, trialsNeeded: null },
    `${PAIRS} 0.00212 °C with standard error 0.00003 °C, δ = 0.00500 °C: they do not decide; d and δ are not known to differ by more than 0.003 °C.`,
    `${PAARE} 0,00212 °C mit der Standardabweichung 0,00003 °C, δ = 0,00500 °C: Sie entscheiden nicht; dass sich d und δ um mehr als 0,003 °C unterscheiden, ist nicht bekannt.`,
  ],
  [
    { kind: "shortest" },
    "There are no paired trials, since the study's interval is the shortest one, whose place they do not sharpen.",
    "Gepaarte Versuche gibt es nicht, weil das Intervall der Studie das kürzeste ist, dessen Lage sie nicht genauer ergeben.",
  ],
  [
    { kind: "leftOut" },
    "There are no paired trials, since trials for which the model is undefined are left out.",
    "Gepaarte Versuche gibt es nicht, weil Versuche ausgelassen werden, für die das Modell nicht definiert ist.",
  ],
  [
    { kind: "noLinearUncertainty" },
    "There are no paired trials, since the linear budget finds no uncertainty.",
    "Gepaarte Versuche gibt es nicht, weil das lineare Budget keine Unsicherheit ergibt.",
  ],
  [
    { kind: "accuracy" },
    "There are no paired trials, since the endpoints of the linearised model are not known to δ/1000.",
    "Gepaarte Versuche gibt es nicht, weil die Endpunkte des linearisierten Modells nicht auf δ/1000 bekannt sind.",
  ],
  [
    { kind: "fewAtEndpoint" },
    "There are no paired trials, since too few different values lie about an endpoint.",
    "Gepaarte Versuche gibt es nicht, weil um einen Endpunkt zu wenige verschiedene Werte liegen.",
  ],
  [
    { kind: "noStandardDeviation", inputs: ["R_X", "t_ref"] },
    "There are no paired trials, since the distribution of R_X and t_ref has no standard deviation.",
    "Gepaarte Versuche gibt es nicht, weil die Verteilung von R_X und t_ref keine Standardabweichung hat.",
  ],
  [
    { kind: "copula", inputs: ["R_X", "t_ref"] },
    "There are no paired trials, since R_X and t_ref depend on one another by a Gaussian copula, of whose sum no distribution is known.",
    "Gepaarte Versuche gibt es nicht, weil R_X und t_ref durch eine Gauß-Copula voneinander abhängen, für deren Summe keine Verteilung bekannt ist.",
  ],
]);
