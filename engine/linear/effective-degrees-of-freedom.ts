/**
 * Effective degrees of freedom by the Welch–Satterthwaite formula, written so that it holds for covariances too:
 * ν_eff = 1 / Σ w_i²/ν_i, where w_i is the share of u²(y) that is proportional to u²(x_i).
 *
 * For independent inputs w_i = u_i²(y)/u²(y), and this is JCGM 100, G.4.1, equation G.2b. For correlated ones see
 * DEVELOPERS.md, *Degrees of freedom with covariances*.
 *
 * @returns `Infinity` if no part has finite degrees of freedom
 */
export function effectiveDegreesOfFreedom(
  parts: readonly { readonly share: number; readonly degreesOfFreedom: number }[],
): number {
  let sum = 0;
  for (const { share, degreesOfFreedom } of parts) sum += (share * share) / degreesOfFreedom;
  return sum === 0 ? Infinity : 1 / sum;
}
