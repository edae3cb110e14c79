import type { PairedFact } from "../../paired/paired-facts.ts";
import type { MessageTable } from "../messages.ts";
import { speech } from "./speech.ts";

const { figure, list, whole } = speech;

type Compared = Extract<PairedFact, { kind: "stands" | "otherwise" | "undecided" }>;

const found = ({ difference, standardError, tolerance }: Compared): string =>
  `Paired trials (each also through the linearised model, whose distribution is known exactly, so that only what the two differ by is left to chance) give d = ${figure(difference)} with standard error ${figure(standardError)}, δ = ${figure(tolerance)}`;

const needed = (trials: number | null): string =>
  trials === null ? "" : `; by themselves about ${whole(trials)} trials would show it`;

const without = (reason: string): string => `There are no paired trials, since ${reason}.`;

export const paired: MessageTable<PairedFact> = {
  stands: (fact) => `${found(fact)}: the verdict stands${needed(fact.trialsNeeded)}.`,
  otherwise: (fact) =>
    `${found(fact)}: with more trials the budget would ${fact.decision === "validated" ? "" : "not "}be validated${needed(fact.trialsNeeded)}.`,
  undecided: (fact) =>
    `${found(fact)}: they do not decide; d and δ are not known to differ by more than ${figure(fact.margin)}.`,
  shortest: () => without("the study's interval is the shortest one, whose place they do not sharpen"),
  leftOut: () => without("trials for which the model is undefined are left out"),
  noLinearUncertainty: () => without("the linear budget finds no uncertainty"),
  accuracy: () => without("the endpoints of the linearised model are not known to δ/1000"),
  fewAtEndpoint: () => without("too few different values lie about an endpoint"),
  noStandardDeviation: ({ inputs }) => without(`the distribution of ${list(inputs)} has no standard deviation`),
  copula: ({ inputs }) =>
    without(`${list(inputs)} depend on one another by a Gaussian copula, of whose sum no distribution is known`),
};
