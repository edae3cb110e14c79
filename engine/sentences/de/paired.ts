import type { PairedFact } from "../../paired/paired-facts.ts";
import type { MessageTable } from "../messages.ts";
import { speech } from "./speech.ts";

const { figure, list, whole } = speech;

type Compared = Extract<PairedFact, { kind: "stands" | "otherwise" | "undecided" }>;

const found = ({ difference, standardError, tolerance }: Compared): string =>
  `Gepaarte Versuche (jeder auch durch das linearisierte Modell, dessen Verteilung genau bekannt ist, sodass nur der Unterschied dem Zufall überlassen bleibt) ergeben d = ${figure(difference)} mit der Standardabweichung ${figure(standardError)}, δ = ${figure(tolerance)}`;

const needed = (trials: number | null): string =>
  trials === null ? "" : `; allein zeigten es erst etwa ${whole(trials)} Versuche`;

const without = (reason: string): string => `Gepaarte Versuche gibt es nicht, weil ${reason}.`;

export const paired: MessageTable<PairedFact> = {
  stands: (fact) => `${found(fact)}: Das Urteil bleibt${needed(fact.trialsNeeded)}.`,
  otherwise: (fact) =>
    `${found(fact)}: Mit mehr Versuchen wäre das Budget ${fact.decision === "validated" ? "" : "nicht "}validiert${needed(fact.trialsNeeded)}.`,
  undecided: (fact) =>
    `${found(fact)}: Sie entscheiden nicht; dass sich d und δ um mehr als ${figure(fact.margin)} unterscheiden, ist nicht bekannt.`,
  shortest: () => without("das Intervall der Studie das kürzeste ist, dessen Lage sie nicht genauer ergeben"),
  leftOut: () => without("Versuche ausgelassen werden, für die das Modell nicht definiert ist"),
  noLinearUncertainty: () => without("das lineare Budget keine Unsicherheit ergibt"),
  accuracy: () => without("die Endpunkte des linearisierten Modells nicht auf δ/1000 bekannt sind"),
  fewAtEndpoint: () => without("um einen Endpunkt zu wenige verschiedene Werte liegen"),
  noStandardDeviation: ({ inputs }) => without(`die Verteilung von ${list(inputs)} keine Standardabweichung hat`),
  copula: ({ inputs }) =>
    without(
      `${list(inputs)} durch eine Gauß-Copula voneinander abhängen, für deren Summe keine Verteilung bekannt ist`,
    ),
};
