import { type LinearRecord, type ReportedRecord } from "../../../engine/index.ts";
import { haveJointT } from "../../../engine/internal.ts";

/**
 * The inputs of a budget in sets: those of one set have their degrees of freedom in common, since their standard
 * uncertainties come from the same readings (joint t, JCGM 102, 5.3.2); every other input is a set of its own.
 *
 * @returns for each row of the budget the number of its set
 */
export function estimatedTogether(
  { study, inputs }: Pick<ReportedRecord, "study" | "inputs">,
  { contributions, correlatedTerms }: LinearRecord,
): readonly number[] {
  const rowOf = (name: string): number => contributions.findIndex(({ input }) => input === name);
  const connected = contributions.map((_, i) => i);
  const join = (into: number[], a: number, b: number): void => {
    const [from, to] = [into[a]!, into[b]!];
    for (let i = 0; i < into.length; i++) if (into[i] === from) into[i] = to;
  };
  const linked = correlatedTerms.filter(({ coefficient }) => coefficient !== 0);
  for (const {
    between: [a, b],
  } of linked)
    join(connected, rowOf(a), rowOf(b));
  const together = contributions.map((_, i) => i);
  for (const {
    between: [a, b],
  } of correlatedTerms) {
    const set = connected[rowOf(a)]!;
    if (set !== connected[rowOf(b)]) continue;
    const members = contributions.filter((_, i) => connected[i] === set).map(({ input }) => input);
    const separate = study.correlations.some(
      ({ between, series }) => series === "separate" && between.every((name) => members.includes(name)),
    );
    const joint = haveJointT(
      members.map((name) => ({
        distribution: study.inputs[name]!.distribution,
        degreesOfFreedom: inputs[name]!.degreesOfFreedom,
      })),
    );
    if (joint && !separate) join(together, rowOf(a), rowOf(b));
  }
  return together;
}
