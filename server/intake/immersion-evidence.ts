import type { Evidence, Statement } from "../../engine/index.ts";
import {
  immersionStatement,
  type ImmersionDescription,
  type ImmersionEvaluation,
  type LimitsDistribution,
} from "../../models/index.ts";
import { english } from "../../viewer/present/numbers.ts";
import { withEvidence } from "./with-evidence.ts";

/** A length to four digits. */
const plain = (value: number): string => english.plain(Number(value.toPrecision(4)));

/** The statement of an immersion check, with the file and the figures it rests on. @throws {InputError} */
export const citedImmersion = (
  evaluation: ImmersionEvaluation,
  description: ImmersionDescription,
  file: Evidence["files"][number],
  distribution: LimitsDistribution,
): Readonly<Record<"immersion", Statement>> => ({
  immersion: withEvidence(immersionStatement(evaluation, description, distribution), {
    ...evidenceOf(evaluation, description),
    files: [file],
  }),
});

function evidenceOf(
  { withdrawal, fit }: ImmersionEvaluation,
  { limit, withdrawal: stated }: ImmersionDescription,
): Omit<Evidence, "files"> {
  const allowed = { name: "allowed", value: limit, unit: "K" };
  if (fit === null) {
    return {
      method: `withdrawn by ${plain(stated!.withdrawn)} mm at ${plain(stated!.depth)} mm; the error, change/(exp(h/ℓ) − 1), with twice its standard uncertainty as half-width`,
      figures: [
        { name: "change", value: withdrawal!.change, unit: "K" },
        { name: "decay length", value: withdrawal!.conductionLength, unit: "mm" },
        { name: "error", value: withdrawal!.error, unit: "K" },
        allowed,
      ],
    };
  }
  return {
    method: `exponential fit to readings at ${fit.errors.length} depths; the error at the planned depth with its 95 % uncertainty as half-width`,
    figures: [
      { name: "conduction length", value: fit.conductionLength, unit: "mm" },
      { name: "planned depth", value: fit.plannedDepth, unit: "mm" },
      { name: "error there", value: fit.plannedError, unit: "K" },
      ...(fit.plannedStandardUncertainty === null
        ? []
        : [{ name: "standard uncertainty of it", value: fit.plannedStandardUncertainty, unit: "K" }]),
      ...(withdrawal === null ? [] : [{ name: "change on withdrawal", value: withdrawal.change, unit: "K" }]),
      allowed,
    ],
  };
}
