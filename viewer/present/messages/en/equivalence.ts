/** Words of a comparison between laboratories. */
export const equivalenceWords = {
  equivalence: {
    reference: "Reference value",
    weightedMean: "weighted mean",
    randomEffects: "random effects (Mandel–Paule)",
    assigned: "assigned value",
    kind: "kind",
    value: "value{unit}",
    uncertainty: "{u}{unit}",
    taken: "taken",
    yes: "yes",
    no: "no",
    between: "between laboratories{unit}",
    consistent:
      "The {count} results that count are consistent: χ² = {chi}, {freedom} degrees of freedom, probability of a greater one {p}; Birge ratio {birge}.",
    inconsistent:
      "The {count} results that count are not consistent: χ² = {chi}, {freedom} degrees of freedom, probability of a greater one {p}, below {alpha}; Birge ratio {birge}. Their stated uncertainties do not explain their scatter, so that the weighted mean is no reference value.",
    assignedTaken: "The assigned value is the reference, whatever the test says.",
    degrees: "Degrees of equivalence D with U(D), k = {k}",
    laboratory: "laboratory",
    result: "{x}{unit}",
    own: "{u}{unit}",
    difference: "{D}{unit}",
    expanded: "{UD}{unit}",
    normalised: "E_n",
    zeta: "ζ",
    verdict: "verdict",
    passes: "within U(D)",
    fails: "beyond U(D)",
    outside: "not in the reference value",
    correlated:
      "A laboratory in the reference value is correlated with it: u²(D) is u² less that of the reference value, not their sum.",
  },
} as const;
