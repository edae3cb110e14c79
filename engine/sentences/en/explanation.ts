import type { Cause } from "../../record/explanation.ts";
import type { CauseFact, ExplanationFact, ResponsibleInput } from "../../explanation/explanation-facts.ts";
import type { MessageTable } from "../messages.ts";
import { distributionTitle } from "../../distributions/titles.ts";
import { speech } from "./speech.ts";

const { figure, fixed, significant, wholePercent, list } = speech;

const CAUSES: Readonly<Record<Cause, string>> = {
  curvature: "the curvature of the model",
  shape: "the shape of the inputs",
  degreesOfFreedom: "few degrees of freedom",
};
/** The effect of a cause on the interval; "few degrees of freedom" takes the plural. */
const EFFECTS: Readonly<Record<CauseFact["effect"], readonly [one: string, several: string]>> = {
  widens: ["widens", "widen"],
  narrows: ["narrows", "narrow"],
  shifts: ["shifts", "shift"],
};

export const explanation: MessageTable<ExplanationFact> = {
  noCause: () =>
    "The two intervals agree within the scatter of the trials: neither curvature, shape nor few degrees of freedom move the endpoints.",
  causes: ({ difference, causes }) =>
    `The endpoints differ by up to ${figure(difference)}: ${causes
      .map(
        (cause, i) =>
          `${wholePercent(cause.share)} ${i === 0 ? "of the difference comes " : ""}from ${CAUSES[cause.cause]}${by(cause)}`,
      )
      .join("; ")}.`,
  cancelling: ({ difference, causes }) =>
    `The endpoints differ by only ${figure(difference)} because larger effects cancel: ${causes.map(effect).join("; ")}.`,
  opposed: ({ difference, pushing, takingBack }) =>
    `The endpoints differ by up to ${figure(difference)}: ${pushing.map(effect).join("; ")}${parting(pushing)}. ${list(takingBack.map((cause) => `${CAUSES[cause.cause]}${by(cause)}${cause.inputs.length === 0 ? "" : ","} ${cause.cause === "degreesOfFreedom" ? "take" : "takes"} ${figure(cause.move)} of this back`)).replace(/^./u, (first) => first.toUpperCase())}.`,
  unresolved: ({ remainder }) =>
    `These parts are not resolved: ${figure(remainder)} is left over as the scatter of the trials.`,
  allowanceUnused: ({ linearFactor }) =>
    `The budget's k = ${fixed(linearFactor, 2)} allows for degrees of freedom that the trials leave out.`,
  boundedShape: ({ linearFactor, factorNeeded }) =>
    `A distribution with limits has no tails: a smaller factor than k = ${fixed(linearFactor, 2)} gives the same coverage probability, k = ${fixed(factorNeeded, 2)}.`,
  uncertainSpread: ({ linearFactor, factorNeeded }) =>
    `With so few degrees of freedom the spread is itself uncertain: a larger factor than k = ${fixed(linearFactor, 2)} is necessary, k = ${fixed(factorNeeded, 2)}.`,
  coefficientsVanish: () => "The sensitivity coefficients vanish at the estimates, but the model varies around them.",
  curveShifts: () => "The curvature shifts the whole interval to one side.",
  productsWiden: () => "Products of deviations, which the first order neglects, widen the result.",
};

function effect(fact: CauseFact): string {
  const verb = EFFECTS[fact.effect][fact.cause === "degreesOfFreedom" ? 1 : 0];
  const comma = fact.inputs.length === 0 ? "" : ",";
  return `${CAUSES[fact.cause]}${by(fact)}${comma} ${verb} the interval by ${figure(fact.move)} at one endpoint`;
}

/** How several causes share what they push. */
const parting = (pushing: readonly CauseFact[]): string =>
  pushing.length < 2 ? "" : ` (${list(pushing.map(({ share }) => wholePercent(share)))} of the push)`;

const by = ({ inputs }: CauseFact): string => (inputs.length === 0 ? "" : `, above all ${list(inputs.map(named))}`);

function named({ symbol, degreesOfFreedom, distribution, share }: ResponsibleInput): string {
  if (degreesOfFreedom !== undefined) return `${symbol} (ν = ${significant(degreesOfFreedom, 3)})`;
  if (distribution === undefined || share === undefined) return symbol;
  return `${symbol} (${distributionTitle(distribution, "en")}, ${wholePercent(share)} of u²)`;
}
