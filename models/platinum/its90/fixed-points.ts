import { refuse } from "../../../engine/index.ts";

/** A defining fixed point of ITS-90 that platinum thermometers are calibrated at. */
export interface FixedPoint {
  readonly name: FixedPointName;
  readonly title: string;
  readonly state: "triple" | "melting" | "freezing" | "vapour";
  /** Assigned T₉₀, K; nominal if the point is a vapour pressure, whose temperature is realised, not assigned. */
  readonly temperature: number;
  /** W_r as published, 8 decimals; `null` for the vapour points. */
  readonly referenceRatio: number | null;
  /** Effect of depth in the substance, dT/dl, K/m; `null` if the scale gives none. */
  readonly perDepth: number | null;
  /** Effect of pressure, dT/dp, K/Pa; `null` if the scale gives none. */
  readonly perPressure: number | null;
}

export type FixedPointName =
  | "H2"
  | "H2_17K"
  | "H2_20K"
  | "Ne"
  | "O2"
  | "Ar"
  | "Hg"
  | "H2O"
  | "Ga"
  | "In"
  | "Sn"
  | "Zn"
  | "Al"
  | "Ag";

/** Melting and freezing points are defined at this pressure, Pa. */
export const STANDARD_PRESSURE = 101_325;

const point = (
  name: FixedPointName,
  title: string,
  state: FixedPoint["state"],
  temperature: number,
  referenceRatio: number | null,
  millikelvinPerMetre: number | null,
  perPressure1e8: number | null,
): FixedPoint => ({
  name,
  title,
  state,
  temperature,
  referenceRatio,
  perDepth: millikelvinPerMetre === null ? null : millikelvinPerMetre / 1000,
  perPressure: perPressure1e8 === null ? null : perPressure1e8 / 1e8,
});

/**
 * The fixed points, from The International Temperature Scale of 1990 (Metrologia 27 (1990) 3–10): tables 1 and 2.
 * Table 2 gives dT/dl in mK/m and dT/dp in 10⁻⁸ K/Pa, as written here.
 */
export const fixedPoints: Readonly<Record<FixedPointName, FixedPoint>> = {
  H2: point("H2", "triple point of equilibrium hydrogen", "triple", 13.8033, 0.00119007, 0.25, 34),
  H2_17K: point("H2_17K", "equilibrium hydrogen near 17 K", "vapour", 17.035, null, null, null),
  H2_20K: point("H2_20K", "equilibrium hydrogen near 20.3 K", "vapour", 20.27, null, null, null),
  Ne: point("Ne", "triple point of neon", "triple", 24.5561, 0.00844974, 1.9, 16),
  O2: point("O2", "triple point of oxygen", "triple", 54.3584, 0.09171804, 1.5, 12),
  Ar: point("Ar", "triple point of argon", "triple", 83.8058, 0.21585975, 3.3, 25),
  Hg: point("Hg", "triple point of mercury", "triple", 234.3156, 0.84414211, 7.1, 5.4),
  H2O: point("H2O", "triple point of water", "triple", 273.16, 1, -0.73, -7.5),
  Ga: point("Ga", "melting point of gallium", "melting", 302.9146, 1.11813889, -1.2, -2),
  In: point("In", "freezing point of indium", "freezing", 429.7485, 1.60980185, 3.3, 4.9),
  Sn: point("Sn", "freezing point of tin", "freezing", 505.078, 1.89279768, 2.2, 3.3),
  Zn: point("Zn", "freezing point of zinc", "freezing", 692.677, 2.5689173, 2.7, 4.3),
  Al: point("Al", "freezing point of aluminium", "freezing", 933.473, 3.3760086, 1.6, 7),
  Ag: point("Ag", "freezing point of silver", "freezing", 1234.93, 4.28642053, 5.4, 6),
};

/** The fixed point of this name. @throws {InputError} */
export function fixedPoint(name: string): FixedPoint {
  if (!Object.hasOwn(fixedPoints, name)) refuse("fixedPoint", name, `one of ${Object.keys(fixedPoints).join(", ")}`);
  return fixedPoints[name as FixedPointName];
}
