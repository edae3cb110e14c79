import type { SensitivityFact } from "../../sensitivity/sensitivity-facts.ts";
import type { MessageTable } from "../messages.ts";
import { speech } from "./speech.ts";

const { percent, list } = speech;

export const sensitivity: MessageTable<SensitivityFact> = {
  noVariance: ({ symbol, factors }) =>
    `Anteile an der Varianz von ${symbol} existieren nicht: ${list(factors)} ${factors.length === 1 ? "hat eine Verteilung" : "haben Verteilungen"} ohne Standardabweichung (ν ≤ 2).`,
  doesNotVary: ({ symbol }) => `${symbol} ändert sich nicht und hat daher keine Varianz, die aufzuteilen wäre.`,
  alone: ({ symbol, factors }) =>
    factors.length === 0
      ? `Keine Eingangsgröße erklärt für sich allein einen Teil der Varianz von ${symbol}.`
      : `Von der Varianz von ${symbol} erklärt ${list(factors.map(({ factor, share }, i) => `${factor}${i === 0 ? " allein" : ""} ${percent(share)}`))}.`,
  together: ({ share, factors }) =>
    `${percent(share)} entstehen nur im Zusammenwirken von Eingangsgrößen${factors.length === 0 ? "" : `, vor allem von ${list(factors)}`}.`,
  notTogether: () => "Ein Anteil aus dem Zusammenwirken von Eingangsgrößen ist nicht zu erkennen.",
  budgetMisjudges: ({ factors }) =>
    `Das lineare Budget schätzt das falsch ein: ${factors.map(({ factor, share, total }) => `es schreibt ${factor} ${percent(share)} zu, der Gesamtindex beträgt aber ${percent(total)}`).join("; ")}.`,
};
