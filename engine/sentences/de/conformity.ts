import type { RuleName } from "../../conformity/acceptance.ts";
import type { ConformityFact } from "../../conformity/conformity-facts.ts";
import type { Tolerance } from "../../conformity/tolerance.ts";
import type { MessageTable } from "../messages.ts";
import { unitAfter } from "../speech.ts";
import { speech } from "./speech.ts";

const { figure, significant, chance } = speech;

const RULES: Readonly<Record<RuleName, string>> = {
  "simple acceptance": "einfacher Annahme",
  "guarded acceptance": "Annahme mit Sicherheitsabstand",
  "guarded rejection": "Zurückweisung mit Sicherheitsabstand",
};
const SIDES = { inside: "innerhalb", outside: "außerhalb" } as const;
const DECISIONS = { accepted: "angenommen", rejected: "zurückgewiesen" } as const;
const RISKS = { consumer: "Abnehmerrisiko", producer: "Lieferantenrisiko" } as const;

export const conformity: MessageTable<ConformityFact> = {
  decision({ rule, guardBand, symbol, estimate, decision, tolerance, unit }) {
    const band = guardBand === null ? "" : ` (${figure(guardBand)} ${SIDES[guardBand.side]} jeder Toleranzgrenze)`;
    const basis = tolerance.basis === null ? "" : ` (${tolerance.basis})`;
    return `Nach der Regel der ${RULES[rule]}${band} wird ${symbol} = ${figure(estimate)} ${DECISIONS[decision]}. Gefordert ist ${limits(tolerance, unit)}${basis}.`;
  },
  nothingAcceptable: () => "Die Sicherheitsabstände lassen keinen Wert übrig, der angenommen werden könnte.",
  risk: ({ monteCarlo, linear, bearer, risk }) =>
    `Die Konformitätswahrscheinlichkeit beträgt ${chance(monteCarlo)} nach Monte Carlo und ${chance(linear)} nach dem linearen Budget; das ${RISKS[bearer]} dieser Entscheidung beträgt ${share(risk)}.`,
  methodsDisagree: ({ linear }) =>
    `Die Verfahren entscheiden verschieden: Nach dem linearen Budget würde das Stück ${DECISIONS[linear]}.`,
  beforeMeasurement: ({ conforming, consumer, producer }) =>
    `Von allen Stücken sind ${share(conforming)} konform; das nächste Stück wird mit der Wahrscheinlichkeit ${share(consumer)} zu Unrecht angenommen und mit ${share(producer)} zu Unrecht zurückgewiesen.`,
};

/** Limits as they were stated: rounding to the uncertainty would move them. 12 digits leave out what binary sums add. */
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

const share = (value: number): string => chance({ value, rest: 1 - value });
