import type { RuleName } from "../../conformity/acceptance.ts";
import type { ConformityFact } from "../../conformity/conformity-facts.ts";
import type { Tolerance } from "../../tolerance.ts";
import type { MessageTable } from "../messages.ts";
import { unitAfter } from "../speech.ts";
import { speech } from "./speech.ts";

const { figure, significant, chance } = speech;

const RULES: Readonly<Record<RuleName, string>> = {
  "simple acceptance": "einfachen Annahme",
  "guarded acceptance": "Annahme mit Sicherheitsabstand",
  "guarded rejection": "Zurückweisung mit Sicherheitsabstand",
};
const SIDES = { inside: "innerhalb", outside: "außerhalb" } as const;
const DECISIONS = { accepted: "angenommen", rejected: "zurückgewiesen" } as const;
const RISKS = { consumer: "Abnehmerrisiko", producer: "Lieferantenrisiko" } as const;

export const conformity: MessageTable<ConformityFact> = {
  decision({ rule, guardBand, symbol, estimate, decision, tolerance, unit }) {
    const band = guardBand === null ? "" : ` (${bandWords(guardBand)})`;
    const basis = tolerance.basis === null ? "" : ` (${tolerance.basis})`;
    return `Nach der Regel der ${RULES[rule]}${band} wird ${symbol} = ${figure(estimate)} ${DECISIONS[decision]}. Gefordert ist ${limits(tolerance, unit)}${basis}.`;
  },
  nothingAcceptable: () => "Die Sicherheitsabstände lassen keinen Wert übrig, der angenommen werden könnte.",
  withinScatter: ({ linear }) =>
    `Die Versuche entscheiden das nicht: Das Ergebnis liegt innerhalb ihrer Streuung um eine Annahmegrenze, sodass ein anderer Startwert anders entscheiden kann. Es braucht mehr Versuche; nach dem linearen Budget wird das Stück ${DECISIONS[linear]}.`,
  posterior: ({ conforming, bearer, risk }) =>
    `Mit dem, was vorher über die Stücke bekannt war, beträgt die Konformitätswahrscheinlichkeit ${chance(conforming)} und das ${RISKS[bearer]} dieser Entscheidung ${chance(risk)} (JCGM 106, 7.2).`,
  risk: ({ alone, monteCarlo, linear, bearer, risk }) =>
    `${alone ? "Aus der Messung allein beträgt die" : "Die"} Konformitätswahrscheinlichkeit${alone ? "" : " beträgt"} ${chance(monteCarlo)} nach Monte Carlo und ${chance(linear)} nach dem linearen Budget; das ${RISKS[bearer]} dieser Entscheidung beträgt ${chance(risk)}.`,
  methodsDisagree: ({ linear }) =>
    `Die Verfahren entscheiden verschieden: Nach dem linearen Budget würde das Stück ${DECISIONS[linear]}.`,
  beforeMeasurement: ({ conforming, consumer, producer }) =>
    `Von allen Stücken sind ${chance(conforming)} konform; das nächste Stück wird mit der Wahrscheinlichkeit ${chance(consumer)} zu Unrecht angenommen und mit ${chance(producer)} zu Unrecht zurückgewiesen.`,
};

function bandWords({
  lower,
  upper,
  at,
  side,
}: NonNullable<(ConformityFact & { kind: "decision" })["guardBand"]>): string {
  switch (at) {
    case "each":
      return `${figure(upper)} ${SIDES[side]} jeder Toleranzgrenze`;
    case "apart":
      return `${figure(lower)} ${SIDES[side]} der unteren, ${figure(upper)} ${SIDES[side]} der oberen Toleranzgrenze`;
    case "lower":
      return `${figure(lower)} ${SIDES[side]} der Toleranzgrenze`;
    case "upper":
      return `${figure(upper)} ${SIDES[side]} der Toleranzgrenze`;
  }
}

/** Limits as they were stated: rounding to the uncertainty would move them. 12 digits hide the rounding errors of binary sums. */
function limits({ lower, upper }: Tolerance, unit: string): string {
  const stated = (value: number): string => significant(value, 12);
  const range =
    lower === null
      ? `höchstens ${stated(upper!)}`
      : upper === null
        ? `mindestens ${stated(lower)}`
        : `${stated(lower)} bis ${stated(upper)}`;
  return `${range}${unitAfter(unit)}`;
}
