import { everyMessage } from "./every-message.ts";

everyMessage("sensitivity", [
  [
    { kind: "noVariance", symbol: "y", factors: ["R_X"] },
    "The shares of the variance of y do not exist: R_X has a distribution without a standard deviation (ν ≤ 2).",
    "Anteile an der Varianz von y existieren nicht: R_X hat eine Verteilung ohne Standardabweichung (ν ≤ 2).",
  ],
  [
    { kind: "noVariance", symbol: "y", factors: ["R_X", "V + I"] },
    "The shares of the variance of y do not exist: R_X and V + I have distributions without a standard deviation (ν ≤ 2).",
    "Anteile an der Varianz von y existieren nicht: R_X und V + I haben Verteilungen ohne Standardabweichung (ν ≤ 2).",
  ],
  [
    { kind: "doesNotVary", symbol: "y" },
    "y does not vary, so it has no variance to divide.",
    "y ändert sich nicht und hat daher keine Varianz, die aufzuteilen wäre.",
  ],
  [
    { kind: "alone", symbol: "δm", factors: [] },
    "No input alone explains a part of the variance of δm.",
    "Keine Eingangsgröße erklärt für sich allein einen Teil der Varianz von δm.",
  ],
  [
    {
      kind: "alone",
      symbol: "δm",
      factors: [
        { factor: "m_Rc", share: 0.44 },
        { factor: "δm_Rc", share: 0.071 },
      ],
    },
    "Of the variance of δm, m_Rc alone explains 44 % and δm_Rc 7.1 %.",
    "Von der Varianz von δm erklärt m_Rc allein 44 % und δm_Rc 7,1 %.",
  ],
  [
    { kind: "together", share: 0.48, factors: ["a", "ρ_W"] },
    "48 % arises only from inputs acting together, above all a and ρ_W.",
    "48 % entstehen nur im Zusammenwirken von Eingangsgrößen, vor allem von a und ρ_W.",
  ],
  [
    { kind: "together", share: 0.021, factors: [] },
    "2.1 % arises only from inputs acting together.",
    "2,1 % entstehen nur im Zusammenwirken von Eingangsgrößen.",
  ],
  [
    { kind: "notTogether" },
    "No part from inputs acting together is seen.",
    "Ein Anteil aus dem Zusammenwirken von Eingangsgrößen ist nicht zu erkennen.",
  ],
  [
    { kind: "budgetMisjudges", factors: [{ factor: "a", share: 0, total: 0.49 }] },
    "The linear budget misjudges this: it assigns 0 % to a, whose total index is 49 %.",
    "Das lineare Budget schätzt das falsch ein: es schreibt a 0 % zu, der Gesamtindex beträgt aber 49 %.",
  ],
]);
