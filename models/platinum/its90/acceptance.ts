/** What ITS-90 asks of a thermometer at the fixed points, as far as it was measured there. */
export interface AcceptanceRatios {
  readonly Ga?: number | undefined;
  readonly Hg?: number | undefined;
  readonly Ag?: number | undefined;
}

/** Equations (8a) and (8b): W(29.7646 °C) ≥ 1.11807 or W(−38.8344 °C) ≤ 0.844235. */
export const LEAST_AT_GALLIUM = 1.11807;
export const GREATEST_AT_MERCURY = 0.844235;
/** Equation (8c), for use up to the freezing point of silver: W(961.78 °C) ≥ 4.2844. */
export const LEAST_AT_SILVER = 4.2844;

export interface Acceptance {
  readonly accepted: boolean;
  readonly reason: string;
}

/**
 * Whether the platinum is pure and strain-free enough for ITS-90 (Metrologia 27 (1990) 3–10, 3.3): at least one of the
 * first two, and the third as well if the thermometer is used up to the freezing point of silver.
 */
export function acceptance({ Ga, Hg, Ag }: AcceptanceRatios, toSilver = false): Acceptance {
  const parts: string[] = [];
  if (Ga !== undefined)
    parts.push(`W(Ga) = ${Ga} is ${Ga >= LEAST_AT_GALLIUM ? "at least" : "below"} ${LEAST_AT_GALLIUM}`);
  if (Hg !== undefined)
    parts.push(`W(Hg) = ${Hg} is ${Hg <= GREATEST_AT_MERCURY ? "at most" : "above"} ${GREATEST_AT_MERCURY}`);
  const pure = (Ga !== undefined && Ga >= LEAST_AT_GALLIUM) || (Hg !== undefined && Hg <= GREATEST_AT_MERCURY);
  if (parts.length === 0) parts.push("neither W(Ga) nor W(Hg) was measured");
  if (!toSilver) return { accepted: pure, reason: parts.join("; ") };
  const hot = Ag !== undefined && Ag >= LEAST_AT_SILVER;
  parts.push(
    Ag === undefined ? "W(Ag) was not measured" : `W(Ag) = ${Ag} is ${hot ? "at least" : "below"} ${LEAST_AT_SILVER}`,
  );
  return { accepted: pure && hot, reason: parts.join("; ") };
}
