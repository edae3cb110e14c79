/** English words: the trials, their stability and the sensitivity indices. `{…}` stands for what is filled in; other languages keep the same places. */
export const monteCarloWords = {
  monteCarlo: {
    intro:
      "The distributions of the input quantities were propagated through the model with {trials} trials (JCGM\u00a0101:2008, clauses 6 and 7). The standard errors state how far each figure would scatter if the trials were drawn again.",
    caption: "Results of both methods for {y} at {p} coverage; the budget is compared with the {kind} interval",
    figure: "Figure",
    linear: "Linear budget",
    monteCarlo: "Monte Carlo",
    standardError: "Standard error",
    estimate: "Estimate {y}",
    uncertainty: "Standard uncertainty {u}({y})",
    half: "Half-length of the interval",
    low: "Lower endpoint",
    high: "Upper endpoint",
    least: "Least trial",
    greatest: "Greatest trial",
    withoutUnit: "Without a unit",
    factor: "Coverage factor {k}: half-length over the linear standard uncertainty",
    freedom: "Effective degrees of freedom {nu}",
    skewness: "Skewness",
    kurtosis: "Excess kurtosis",
    pictureCaption:
      "Density of {y}: trials (grey, solid outline) and the density that the linear budget implies (dashed). Below, both {p} coverage intervals with the differences of their endpoints.",
    outside: " {count} of the trials lie outside the picture.",
    pictureName:
      "Density of {y} by Monte Carlo and by the linear budget; linear interval {linear}, Monte Carlo interval {monteCarlo} {unit}.",
    laneLinear: "linear budget",
    laneMonteCarlo: "Monte Carlo, {kind}",
    density: "probability density",
  },
  settling: {
    fixed: "The study asked for {trials} trials; the run stopped there.",
    settled:
      "The run was adaptive and stopped after {trials} trials, when every figure had settled (JCGM\u00a0101:2008, 7.9.4).",
    limit:
      "The run was adaptive and stopped at the most trials the study allows, {trials}, before every figure had settled.",
    rule: "A figure has settled when twice the standard deviation of its average over batches of {batch} trials, 2\u00a0{s}, is at most {delta}/5 (JCGM\u00a0101:2008, 7.9.4 with 8.2).",
    caption: "Stability of the figures of {y}",
    figure: "Figure",
    average: "Average",
    doubled: "2\u00a0{s}",
    limitHead: "{delta}/5",
    verdict: "Settled",
    yes: "yes",
    no: "no",
    estimate: "Estimate",
    standardUncertainty: "Standard uncertainty",
    low: "Lower endpoint",
    high: "Upper endpoint",
    pictureCaption:
      "Average of each figure of {y} over the batches so far less its last value, against the number of trials; band: ± 2\u00a0{s}; dotted: ± {delta}/5. All have one scale, in {unit}.",
    pictureName: "{figure}: course of the average over {trials} trials",
    trials: "{trials} trials",
  },
  sensitivity: {
    caption:
      "Share of {u}²({y}) by input: in the linear budget, and by variance-based indices with their {confidence} intervals",
    factor: "Quantity",
    linear: "Linear share",
    firstOrder: "First-order index {S}",
    total: "Total index {T}",
    alone: "{u} alone{unit}",
    drawnTogether: "drawn together",
    interaction: "acting together only",
    pictureCaption:
      "Bars: the indices with their {confidence} intervals, on a scale of 0 to 1; hollow circle: linear share of {u}²({y}).",
    pictureName: "{index} {value}, interval {interval}; linear share {linear}",
    firstOrderName: "first-order index",
    totalName: "total index",
    conditionalCaption:
      "{y} against the inputs of the largest total index while all inputs vary: mean in equally probable parts of the input (line) and the middle 90 % (grey).",
    conditionalName: "{y} against {x}",
    absent: "The record holds no sensitivity analysis of this measurand.",
    meaning:
      "First order: the share of u² that would go if this input were known. Total: the share that would stay if all others were.",
    estimators:
      "{trials} trials in each of two independent sets of draws. Estimators: first-order {firstOrder}; total {total}; intervals {interval}; contributions {contribution}.",
    oneAtATime: "Standard uncertainty from inputs taken one at a time {alone}, from all together {together}.",
  },
} as const;
