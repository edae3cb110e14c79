import type { Cause } from "../../record/explanation.ts";
import type { CauseFact, ExplanationFact, ResponsibleInput } from "../../explanation/explanation-facts.ts";
import type { MessageTable } from "../messages.ts";
import { distributionTitle } from "../../distributions/titles.ts";
import { speech } from "./speech.ts";

const { figure, fixed, significant, wholePercent, list } = speech;

/** A cause as the dative of "aus" and as a nominative. */
const CAUSES: Readonly<Record<Cause, { readonly from: string; readonly alone: string }>> = {
  curvature: { from: "aus der Krümmung des Modells", alone: "die Krümmung des Modells" },
  shape: { from: "aus der Form der Eingangsverteilungen", alone: "die Form der Eingangsverteilungen" },
  degreesOfFreedom: { from: "aus der kleinen Zahl der Freiheitsgrade", alone: "die kleine Zahl der Freiheitsgrade" },
};
const EFFECTS: Readonly<Record<CauseFact["effect"], string>> = {
  widens: "verbreitert",
  narrows: "verschmälert",
  shifts: "verschiebt",
};

export const explanation: MessageTable<ExplanationFact> = {
  noCause: () =>
    "Die beiden Intervalle stimmen innerhalb der Streuung der Versuche überein: Weder Krümmung noch Form noch eine kleine Zahl der Freiheitsgrade verschiebt die Endpunkte.",
  causes: ({ difference, causes }) =>
    `Die Endpunkte unterscheiden sich um bis zu ${figure(difference)}. Von dieser Differenz ${causes
      .map(
        (cause, i) =>
          `${i === 0 ? "stammen " : ""}${wholePercent(cause.share)} ${CAUSES[cause.cause].from}${by(cause)}`,
      )
      .join("; ")}.`,
  cancelling: ({ difference, causes }) =>
    `Die Endpunkte unterscheiden sich nur um ${figure(difference)}, weil sich größere Einflüsse aufheben: ${causes.map(effect).join("; ")}.`,
  opposed: ({ difference, pushing, takingBack }) =>
    `Die Endpunkte unterscheiden sich um bis zu ${figure(difference)}: ${pushing.map(effect).join("; ")}${parting(pushing)}. ${list(takingBack.map((cause) => `${CAUSES[cause.cause].alone}${by(cause)}${cause.inputs.length === 0 ? "" : ","} nimmt ${figure(cause.move)} davon zurück`)).replace(/^./u, (first) => first.toUpperCase())}.`,
  unresolved: ({ remainder }) =>
    `Diese Anteile sind nicht aufgelöst: ${figure(remainder)} bleiben als Streuung der Versuche übrig.`,
  allowanceUnused: ({ linearFactor }) =>
    `Der Faktor k = ${fixed(linearFactor, 2)} des Budgets berücksichtigt Freiheitsgrade, die in den Versuchen nicht vorkommen.`,
  boundedShape: ({ linearFactor, factorNeeded }) =>
    `Eine Verteilung mit Grenzen hat keine Ausläufer: Ein kleinerer Faktor als k = ${fixed(linearFactor, 2)} ergibt dieselbe Überdeckungswahrscheinlichkeit, k = ${fixed(factorNeeded, 2)}.`,
  uncertainSpread: ({ linearFactor, factorNeeded }) =>
    `Bei so wenigen Freiheitsgraden ist die Streuung selbst unsicher: Es ist ein größerer Faktor als k = ${fixed(linearFactor, 2)} nötig, k = ${fixed(factorNeeded, 2)}.`,
  coefficientsVanish: () =>
    "Die Empfindlichkeitskoeffizienten verschwinden an den Schätzwerten, obwohl sich das Modell in deren Umgebung ändert.",
  curveShifts: () => "Die Krümmung verschiebt das ganze Intervall nach einer Seite.",
  productsWiden: () => "Produkte von Abweichungen, die die erste Ordnung vernachlässigt, verbreitern das Ergebnis.",
};

function effect(fact: CauseFact): string {
  const comma = fact.inputs.length === 0 ? "" : ",";
  return `${CAUSES[fact.cause].alone}${by(fact)}${comma} ${EFFECTS[fact.effect]} das Intervall an einem Endpunkt um ${figure(fact.move)}`;
}

/** How several causes share what they push. */
const parting = (pushing: readonly CauseFact[]): string =>
  pushing.length < 2 ? "" : ` (${list(pushing.map(({ share }) => wholePercent(share)))} der Verschiebung)`;

const by = ({ inputs }: CauseFact): string => (inputs.length === 0 ? "" : `, vor allem ${list(inputs.map(named))}`);

function named({ symbol, degreesOfFreedom, distribution, share }: ResponsibleInput): string {
  if (degreesOfFreedom !== undefined) return `${symbol} (ν = ${significant(degreesOfFreedom, 3)})`;
  if (distribution === undefined || share === undefined) return symbol;
  return `${symbol} (${distributionTitle(distribution, "de")}, ${wholePercent(share)} von u²)`;
}
