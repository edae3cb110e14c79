/** A study of many inputs: each derivative evaluates the model of them all, so that a check takes as their square. */
export function studyOf(count: number): Record<string, unknown> {
  const names = Array.from({ length: count }, (_, i) => `x${i}`);
  return {
    title: `Of ${count} inputs`,
    model: "additive",
    parameters: { coefficients: Object.fromEntries(names.map((name) => [name, 1])) },
    inputs: Object.fromEntries(
      names.map((name) => [name, { distribution: "normal", estimate: 1, standardUncertainty: 0.1 }]),
    ),
    trials: 20_000,
  };
}
