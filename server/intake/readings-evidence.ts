import type { Evidence, Statement } from "../../engine/index.ts";
import { comparisonStatements, differenceStatement, showInstant, type ProbeEvaluation } from "../../models/index.ts";
import { withEvidence } from "./with-evidence.ts";

/** The statements of a probe's readings, with the files and the figures they rest on; none without a probe. @throws {InputError} */
export function citedReadings(
  probe: ProbeEvaluation | null,
  files: Evidence["files"],
): Readonly<Record<string, Statement>> {
  if (probe === null) return {};
  const { typeA, sequence, referenceMean, together, timed } = probe;
  const moments = [
    { name: "from", value: showInstant(sequence.cycles[0]!.from) },
    { name: "to", value: showInstant(sequence.cycles.at(-1)!.to) },
  ];
  const evidence: Evidence = {
    method: together
      ? `${sequence.cycles.length} pairs of readings taken together; type A from ${typeA.basis}`
      : `${sequence.cycles.length} cycles reference–probe–reference, the reference interpolated to each probe reading; type A from ${typeA.basis}`,
    files,
    figures: [
      ...(timed ? moments : []),
      { name: "mean difference", value: typeA.mean, unit: "K" },
      {
        name: together ? "standard deviation of a pair" : "standard deviation of a cycle",
        value: typeA.standardDeviation,
        unit: "K",
      },
      { name: "standard uncertainty of the mean", value: typeA.standardUncertainty, unit: "K" },
      { name: "degrees of freedom", value: typeA.degreesOfFreedom },
      { name: "effective sample size", value: typeA.effectiveCount },
      { name: "lag-1 autocorrelation", value: typeA.autocorrelation.lagOne },
      { name: "values flagged", value: typeA.outliers.flagged.length },
      { name: "mean of the reference", value: referenceMean, unit: "°C" },
      ...(together ? [] : [{ name: "shift that drift would have brought", value: probe.uncorrectedShift, unit: "K" }]),
    ],
  };
  if (probe.nominalResistance === null) return { difference: withEvidence(differenceStatement(probe), evidence) };
  const { nominalResistance, ...measured } = comparisonStatements(probe);
  return {
    ...Object.fromEntries(
      Object.entries(measured).map(([name, statement]) => [name, withEvidence(statement, evidence)]),
    ),
    nominalResistance,
  };
}
