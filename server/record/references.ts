import { show, type Problem, type ReportedRecord } from "../../engine/index.ts";

/** Names that point at nothing, and meshes of the wrong size. */
export function referenceProblems(record: ReportedRecord): Problem[] {
  const problems: Problem[] = [];
  const known = (place: string, name: string, among: Readonly<Record<string, unknown>>): void => {
    if (!Object.hasOwn(among, name))
      problems.push({ place, value: show(name), accepted: `one of ${Object.keys(among).slice(0, 20).join(", ")}` });
  };
  if (Object.keys(record.measurands).length === 0)
    problems.push({ place: "measurands", value: "{}", accepted: "at least one measurand" });
  for (const name of Object.keys(record.inputs)) known(`inputs.${name}`, name, record.study.inputs);
  for (const [name, { linear, secondOrder, explanation }] of Object.entries(record.measurands)) {
    const lists: readonly (readonly [string, readonly string[]])[] = [
      ["linear.contributions", linear.contributions.map(({ input }) => input)],
      ["linear.correlatedTerms", linear.correlatedTerms.flatMap(({ between }) => between)],
      ["secondOrder.terms", secondOrder?.terms.flatMap(({ between }) => between) ?? []],
      ["explanation.parts", Object.values(explanation?.parts ?? {}).flatMap(({ inputs }) => inputs)],
    ];
    for (const [place, inputs] of lists)
      inputs.forEach((input) => known(`measurands.${name}.${place}`, input, record.inputs));
  }
  if (record.joint === null) return problems;
  const { measurands, linear, monteCarlo, pairs } = record.joint;
  const m = measurands.length;
  measurands.forEach((name) => known("joint.measurands", name, record.measurands));
  pairs.forEach(({ between, grid }, i) => {
    between.forEach((name) => known(`joint.pairs.${i}.between`, name, record.measurands));
    const wanted = grid.cells * grid.cells;
    if (grid.counts.length !== wanted)
      problems.push({
        place: `joint.pairs.${i}.grid.counts`,
        value: `${grid.counts.length} counts`,
        accepted: `${wanted} counts`,
      });
  });
  for (const [place, rows] of [
    ["linear.covariance", linear.covariance],
    ["linear.correlation", linear.correlation],
    ["monteCarlo.correlation", monteCarlo?.correlation],
  ] as const) {
    if (rows?.length !== m && rows !== undefined)
      problems.push({ place: `joint.${place}`, value: `${rows.length} rows`, accepted: `${m} rows of ${m} numbers` });
    else if (rows?.some((row) => row.length !== m))
      problems.push({
        place: `joint.${place}`,
        value: "rows of unequal length",
        accepted: `${m} rows of ${m} numbers`,
      });
  }
  return problems;
}
