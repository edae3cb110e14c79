/**
 * Effective degrees of freedom by the Welch–Satterthwaite formula: ν_eff = u⁴(y) / Σ u_i⁴(y)/ν_i (JCGM 100, G.4.1,
 * equation G.2b).
 *
 * @param contributions u_i(y) = |c_i|·u(x_i)
 * @returns `Infinity` where no contribution has finite degrees of freedom
 */
export function effectiveDegreesOfFreedom(
  combined: number,
  contributions: readonly { readonly contribution: number; readonly degreesOfFreedom: number }[],
): number {
  let sum = 0;
  for (const { contribution, degreesOfFreedom } of contributions) {
    // Relative to u(y), so that the fourth powers of tiny uncertainties do not vanish.
    const share = (contribution / combined) * (contribution / combined);
    if (contribution !== 0) sum += (share * share) / degreesOfFreedom;
  }
  return sum === 0 ? Infinity : 1 / sum;
}
