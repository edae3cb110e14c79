import type { ValidationRecord } from "../../engine/index.ts";
import type { Messages } from "./messages/messages.ts";

/** What the trials show of a linear budget. */
export type Standing = "validated" | "notValidated" | "undecided" | "nothingVaries";

/** What a standing follows from. Points of sweeps and heads of runs filed before 0.3 do not have `firm`. */
export type Judged = Pick<ValidationRecord, "validated" | "nothingVaries"> & { readonly firm?: boolean };

/** The one place that decides what a verdict is called. */
export function standingOf({ validated, firm, nothingVaries }: Judged): Standing {
  if (nothingVaries === true) return "nothingVaries";
  if (firm === false) return "undecided";
  return validated ? "validated" : "notValidated";
}

/** The gravest first: a run is as good as the worst of its measurands. */
const GRAVEST: readonly Standing[] = ["notValidated", "undecided", "nothingVaries", "validated"];

/** One standing for several measurands; `null` if there is none. */
export const gravest = (standings: readonly Standing[]): Standing | null =>
  GRAVEST.find((standing) => standings.includes(standing)) ?? null;

/** A sign beside the words, so that they differ at a glance and in print. */
const SIGNS: Readonly<Record<Standing, string>> = {
  validated: "=",
  notValidated: "≠",
  undecided: "?",
  nothingVaries: "·",
};

/** "validated". */
export const standingWords = (standing: Standing, { verdicts }: Pick<Messages, "verdicts">): string =>
  verdicts[standing];

/** "= validated". */
export const standingText = (standing: Standing, messages: Pick<Messages, "verdicts">): string =>
  `${SIGNS[standing]}\u00a0${messages.verdicts[standing]}`;

/** "Validated", as a heading. */
export function standingTitle(standing: Standing, { verdicts }: Pick<Messages, "verdicts">): string {
  const words = verdicts[standing];
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}

/**
 * The standings at one and at two significant digits. Trials that do not decide at the study's digits for another reason
 * than an endpoint's distance from δ decide at none; at the other digits δ is ten times away.
 */
export function standingAt(validation: ValidationRecord, significantDigits: number): Standing {
  const at = validation.atDigits.find((row) => row.significantDigits === significantDigits);
  if (at === undefined || significantDigits === validation.significantDigits) return standingOf(validation);
  const others = (validation.doubts ?? []).filter((doubt) => doubt !== "scatter");
  return standingOf({ ...validation, validated: at.validated, firm: validation.firm || others.length === 0 });
}
