import type { RecommendationFact } from "../../explanation/recommendation-facts.ts";
import type { MessageTable } from "../messages.ts";
import { speech } from "./speech.ts";

const { fixed, significant, list } = speech;

export const recommendation: MessageTable<RecommendationFact> = {
  keep: ({ factor }) => `Das lineare Budget mit k = ${fixed(factor, 2)} beibehalten.`,
  nothingVaries: () =>
    "Es ist keine Unsicherheit anzugeben. Ist eine Eingangsgröße nicht genau bekannt, so sind ihre Standardunsicherheit oder ihre Grenzen anzugeben.",
  drawMore: () =>
    "Mehr Versuche ziehen, oder adaptiv so viele wie nötig, bis sie das Urteil entscheiden; oder das Monte-Carlo-Intervall angeben, das in beiden Fällen gilt.",
  stateDeviation: () =>
    "Die Größe als Abweichung von einem Nennwert angeben, damit die Rundung auf Zahlen doppelter Genauigkeit klein gegen δ ist, und die Auswertung wiederholen.",
  stateDoubtfulLimits: ({ inputs, factor }) =>
    `Die Freiheitsgrade von ${list(inputs.map(named))} stehen für die Zuverlässigkeit angegebener Grenzen (JCGM 100, G.4.2), die in den Versuchen mit diesen Grenzen nicht vorkommt. Das Budget mit unendlich vielen Freiheitsgraden vergleichen (k = ${fixed(factor, 2)}) oder ein krummliniges Trapez angeben, dessen Grenzen selbst unsicher sind (JCGM 101, 6.4.3).`,
  doubtfulSample: ({ inputs, factor }) =>
    `Die Freiheitsgrade von ${list(inputs.map(named))} stehen dafür, wie wenige Werte es sind, was in den Versuchen mit eben diesen Werten nicht vorkommt. Das Budget mit unendlich vielen Freiheitsgraden vergleichen (k = ${fixed(factor, 2)}) oder eine Verteilung angeben.`,
  knowBetter: ({ input }) =>
    `Das Monte-Carlo-Intervall angeben, weil die Unsicherheit von ${named(input)} mit wenigen Freiheitsgraden angegeben ist. Nur eine Quelle, die sie mit mehr Freiheitsgraden kennt, lässt das lineare Budget gelten.`,
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

const named = ({
  symbol,
  degreesOfFreedom,
}: {
  readonly symbol: string;
  readonly degreesOfFreedom: number | null;
}): string => (degreesOfFreedom === null ? symbol : `${symbol} (ν = ${significant(degreesOfFreedom, 3)})`);

const REASONS = {
  curvature: "Kein Faktor k gleicht die Krümmung des Modells aus",
  asymmetry: "Das Ergebnis ist nicht symmetrisch zum Schätzwert",
} as const;
