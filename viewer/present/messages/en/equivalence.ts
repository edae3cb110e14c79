/** Words of a comparison between laboratories. */
export const equivalenceWords = {
  equivalence: {
    document: "Comparison between laboratories",
    quantity: "Quantity",
    reference: "Reference value",
    weightedMean: "weighted mean",
    randomEffects: "random effects (Mandel–Paule)",
    subset: "largest consistent subset",
    median: "median",
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
    subsetFound:
      "The largest consistent subset has {count} of {all} results (χ² = {chi}, {freedom} degrees of freedom, probability of a greater one {p}). Not in it: {excluded}.",
    minority: "That is no more than half of them, so that the subset is no consensus.",
    noSubset:
      "No consistent subset was found: no two results are consistent, or correlated results have more subsets than can be tried.",
    medianFound:
      "The median and its {u} come from {trials} trials of the stated distributions. Its differences are not normal: where it is the reference value, each has its shortest 95 % interval.",
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
    interval: "95 % interval of {D}{unit}",
    outside: "not in the reference value",
    correlated:
      "A laboratory in the reference value is correlated with it: u²(D) is u² less that of the reference value, not their sum.",
    correlatedByEffects:
      "The scatter between the laboratories is part of the uncertainty of the reference value and, through it, of U(D). A laboratory’s own effect is what D estimates.",
    correlatedInSubset:
      "A laboratory in the subset is correlated with the reference value: u²(D) is u² less that of the reference value. For one outside it is their sum.",
    correlatedByTrials: "D and U(D) come from the same trials as the median, so that their correlation is in them.",
  },
} as const;
