/** English words: the linear budget, with its second-order terms. `{…}` stands for what is filled in; other languages keep the same places. */
export const budgetWords = {
  budget: {
    caption:
      "Linear budget of {y} (JCGM\u00a0100:2008, clause\u00a05, annexes G and H), largest contribution first; {uy} and the contributions in {unit}",
    quantity: "Quantity",
    estimate: "Estimate {x}",
    uncertainty: "{u}({x})",
    unit: "Unit",
    evaluation: "Type",
    freedom: "{nu}",
    sensitivityUnit: "Unit of {c}",
    contribution: "{c} {u}({x})",
    share: "Share of {u}²({y})",
    bar: "Share as a bar",
    pictureName: "Contributions to {u}({y}), the largest first: {list}.",
    pictureBelow: "contribution |{c} {u}({x})|{unit}",
    pictureAbove: "cumulative share of {u}²({y}) / %",
    pictureCaption:
      "Contributions to {u}({y}), the largest first, and with the line, on the scale above, the share of {u}²({y}) that each reaches with those before it.",
    barsCaption:
      "Contributions to {u}({y}), the largest first, and the share of {u}²({y}) that each reaches with those before it",
    pictureCorrelated:
      "Contributions to {u}({y}), the largest first. Their shares do not add up to {u}²({y}), since inputs are correlated.",
    pictureOthers: "{count} others",
    correlated:
      "Correlated terms of {uy}: 2\u00a0{ci}\u00a0{cj}\u00a0{u}({xi})\u00a0{u}({xj})\u00a0{r} (JCGM\u00a0100:2008, 5.2.2)",
    pair: "Quantities",
    coefficient: "{r}",
    term: "Term of {u}²({y})",
    expanded: "Expanded uncertainty {U} = {k} {u}({y}) = {kValue} × {u2} = {U2}; coverage interval {interval} for {p}.",
    custom: "The coverage factor follows from the coverage probability asked for and {nu} (JCGM\u00a0100:2008, G.4).",
    fixed: "The coverage factor is fixed at {kValue}; for a normal distribution that is a coverage probability of {p}.",
  },
  secondOrder: {
    intro:
      "With the next-order terms of the Taylor series (JCGM\u00a0100:2008, 5.1.2, note), which hold for independent inputs close to a normal distribution, the budget becomes:",
    none: "The next-order terms of the Taylor series (JCGM\u00a0100:2008, 5.1.2, note) add nothing at the figures' precision: the model is linear about the estimates.",
    absent:
      "No next-order terms are given: they hold for independent inputs and for models that bend little within a standard uncertainty.",
    caption: "The budget of {y} with second-order terms",
    estimate: "Estimate {y}, with the bias {bias}",
    first: "First order",
    second: "With second-order terms",
    tolerance: "Tolerance {delta}",
    terms: "Largest terms of {u}²({y}): {terms}.",
    term: "{pair} ({share} of {u}²({y}))",
    byItself: "{quantity} with itself",
  },
} as const;
