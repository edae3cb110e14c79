import type { RecommendationFact } from "../../explanation/recommendation-facts.ts";
import type { MessageTable } from "../messages.ts";
import { speech } from "./speech.ts";

const { fixed, significant, list } = speech;

export const recommendation: MessageTable<RecommendationFact> = {
  keep: ({ factor }) => `Das lineare Budget mit k = ${fixed(factor, 2)} beibehalten.`,
  drawMore: () =>
    "Das lineare Budget beibehalten, sobald ein Lauf mit mehr Versuchen oder ein adaptiver Lauf es bestätigt hat.",
  gatherReadings({ input }) {
    const of = input === null ? "" : ` von ${input.symbol}`;
    const now =
      input === null || input.degreesOfFreedom === null ? "" : ` (jetzt ν = ${significant(input.degreesOfFreedom, 3)})`;
    return `Mehr Anzeigen${of} aufnehmen${now}. Bis dahin das Monte-Carlo-Intervall angeben, da das lineare Budget die unsichere Streuung einer so kleinen Stichprobe nicht ganz berücksichtigt.`;
  },
  keepWithFactor: ({ factor, linearFactor }) =>
    `Das lineare Budget mit k = ${fixed(factor, 2)} statt ${fixed(linearFactor, 2)} beibehalten: Das Ergebnis ist symmetrisch, und dieser Faktor ergibt die verlangte Überdeckungswahrscheinlichkeit.`,
  addSecondOrder: ({ symbols }) =>
    `Das Budget um die Glieder zweiter Ordnung von ${list(symbols)} ergänzen, womit es validiert ist, oder das Monte-Carlo-Intervall angeben.`,
  reportMonteCarlo: ({ because }) => `Das Monte-Carlo-Intervall anstelle des linearen angeben: ${REASONS[because]}.`,
};

const REASONS = {
  curvature: "Kein Faktor k gleicht die Krümmung des Modells aus",
  asymmetry: "Das Ergebnis ist nicht symmetrisch zum Schätzwert",
} as const;
