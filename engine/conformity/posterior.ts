/**
 * The measurand of one item after a normal measurement of it, its prior being normal (JCGM 106:2012, 7.2
 * and annex A): 1/u² = 1/u₀² + 1/u_m² and y = u²·(y₀/u₀² + η_m/u_m²), written so that neither square overflows.
 */
export function normalPosterior(
  prior: { readonly mean: number; readonly standardDeviation: number },
  measured: number,
  standardUncertainty: number,
): { readonly estimate: number; readonly standardUncertainty: number } {
  const ratio = standardUncertainty / prior.standardDeviation;
  const weight = 1 / (1 + ratio * ratio);
  return {
    estimate: prior.mean + weight * (measured - prior.mean),
    standardUncertainty: standardUncertainty * Math.sqrt(weight),
  };
}
