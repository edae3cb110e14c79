/** The name of a kind of distribution in each language, in the words of JCGM 101. */
export interface DistributionTitle {
  readonly en: string;
  readonly de: string;
}

/**
 * The names of all kinds, one line per kind. They are separate from the kinds, so that a page can show a name without
 * loading the code that draws. No name contains parentheses, since sentences put the name itself in parentheses.
 */
export const distributionTitles = {
  normal: { en: "normal", de: "Normalverteilung" },
  rectangular: { en: "rectangular", de: "Rechteckverteilung" },
  triangular: { en: "triangular", de: "Dreieckverteilung" },
  trapezoidal: { en: "trapezoidal", de: "Trapezverteilung" },
  "curvilinear-trapezoid": {
    en: "curvilinear trapezoid",
    de: "krummliniges Trapez",
  },
  arcsine: { en: "arc sine", de: "Arkussinusverteilung" },
  t: { en: "scaled and shifted t", de: "skalierte und verschobene t-Verteilung" },
  readings: { en: "t from repeated indications", de: "t-Verteilung aus wiederholten Anzeigen" },
  exponential: { en: "exponential", de: "Exponentialverteilung" },
  gamma: { en: "gamma", de: "Gammaverteilung" },
  beta: { en: "beta", de: "Betaverteilung" },
  "log-normal": { en: "log-normal", de: "logarithmische Normalverteilung" },
  "truncated-normal": { en: "truncated normal", de: "gestutzte Normalverteilung" },
  "asymmetric-triangular": { en: "asymmetric triangular", de: "unsymmetrische Dreieckverteilung" },
  "asymmetric-rectangular": {
    en: "rectangular, with an estimate off its middle",
    de: "Rechteckverteilung, Schätzwert neben der Mitte",
  },
  poisson: { en: "Poisson", de: "Poisson-Verteilung" },
  discrete: { en: "discrete values", de: "einzelne Werte" },
  sample: { en: "resampled data", de: "aus Daten gezogen" },
  "tabulated-density": { en: "tabulated density", de: "Dichte aus einer Tabelle" },
  "tabulated-distribution": { en: "tabulated distribution function", de: "Verteilungsfunktion aus einer Tabelle" },
  mixture: { en: "mixture", de: "Mischverteilung" },
  constant: { en: "constant", de: "fester Wert" },
} as const satisfies Readonly<Record<string, DistributionTitle>>;

/** What a study calls a kind of distribution. */
export type DistributionName = keyof typeof distributionTitles;

/** The name of a kind in a language; an unknown kind is returned unchanged. */
export function distributionTitle(kind: string, language: keyof DistributionTitle): string {
  return Object.hasOwn(distributionTitles, kind) ? distributionTitles[kind as DistributionName][language] : kind;
}
