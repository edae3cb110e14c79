/** English words: the pictures that are read step by step, and the comparison of two runs. `{…}` stands for what is filled in; other languages keep the same places. */
export const figureWords = {
  reading: {
    hint: "Point at the picture, or reach it with Tab and use the arrow keys, to read it.",
  },
  distributionFigures: {
    controls: "How the picture is drawn",
    coverage: "Coverage",
    binCount: "Bins",
    back: "Back to the study’s own",
    picture: "Picture",
    density: "density",
    distribution: "distribution function",
    quantiles: "Q–Q plot",
    part: "Part",
    lower: "lower endpoint",
    whole: "whole",
    upper: "upper endpoint",
    laneLinear: "linear  {interval}",
    laneMonteCarlo: "Monte Carlo  {interval}",
    laneShortest: "Monte Carlo, shortest  {interval}",
    noBin: "No bin lies wholly in this part: choose more bins.",
    densityName:
      "Histogram of {trials} trials with the density of the linear budget. Linear interval {linear}; Monte Carlo interval {monteCarlo}; coverage probability {p}.",
    readDensity: "Read the histogram bin by bin",
    bin: "{range}: {count} trials, {share}; density {density}",
    binBudget: "; budget {density}",
    distributionName:
      "Distribution function of {trials} trials with that of the linear budget. Linear interval {linear}; Monte Carlo interval {monteCarlo}.",
    distributionAxis: "probability of at most this value",
    readDistribution: "Read the distribution function step by step",
    atMost: "at most {value}: {trials} of the trials; budget {budget}",
    tooFewPoints: "The record has too few points of the distribution function here.",
    quantilesName:
      "Quantiles of the trials against those of the linear budget. Points on the dashed line: both methods agree.",
    trialsQuantile: "Monte Carlo quantile of {y}",
    budgetQuantile: "quantile of the budget’s distribution of {y}",
    readQuantiles: "Read the quantiles step by step",
    rings: "Rings: the median and both endpoints of the interval. {hint}",
    quantile: "{p} lie below {trials}; the budget claims {budget}: {difference} apart",
  },
  sweepPanel: {
    band: "Monte Carlo, {p} interval at each point",
    linear: "linear interval",
    pictureName: "Estimate and both intervals against {quantity}, from {from} to {to}.",
    uncertainty: "standard uncertainty {u}",
    uncertaintyName: "Standard uncertainty by both methods against {quantity}.",
    factor: "coverage factor {k}: the budget’s, and the one needed",
    factorName: "Coverage factor of the budget, and the one the Monte Carlo interval would need, against {quantity}.",
  },
  jointPanel: {
    pair: "Pair",
    between: "{a} and {b}",
    trials: "smallest region and ellipse of the trials",
    trialsFactor: "smallest region and ellipse of the trials, {k} = {factor}",
    linear: "ellipse of the linear budget, {k} = {factor}",
    pictureName: "{a} and {b} together: smallest region of the trials with both coverage ellipses at {p}.",
    region:
      "The smallest region for {p} has {cells} cells with at least {least} trials each; it contains {held} of the trials and covers {area}. Points: {points} of the trials.",
  },
  explanationPanel: {
    absent: "The record has no explanation of this measurand.",
    walks:
      "Each bar starts where the one above it stopped, from the linear endpoint (dashed, ± δ hatched) to the Monte Carlo endpoint. Both pictures have one scale.",
  },
  threeDensities: {
    note: "Where the line leaves the dashes, shapes and degrees of freedom are at work; where the filled outline leaves the line, the model bends.",
  },
  comparedRuns: {
    neither: "Neither run has a result to compare: {why}",
    without: "“{title}” does not have a result to compare: {why}",
    goesOn: "it goes on. Come back when it has finished.",
    unfinished: "it did not finish. Run it again from its sheet, then choose the two anew.",
    bothRuns: "Both runs: {name}",
    inputsOfBoth: "Inputs of both runs",
    pictureName: "Densities of {y} in both runs, laid over each other, and the interval of each.",
  },
} as const;
