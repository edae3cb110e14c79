/** English words: the result and the comparison of both methods. `{…}` stands for what is filled in; other languages keep the same places. */
export const resultWords = {
  result: {
    purpose:
      "The measurand is the {quantities}. Its uncertainty was evaluated by two methods, from the same model and the same information on the input quantities: by the linear budget of the GUM (JCGM\u00a0100:2008), and by propagation of distributions with a Monte Carlo method (JCGM\u00a0101:2008). This report tells whether the second validates the first (JCGM\u00a0101:2008, clause\u00a08).",
    purposes:
      "The measurands are the {quantities}. Their uncertainties were evaluated by two methods, from the same model and the same information on the input quantities: by the linear budget of the GUM (JCGM\u00a0100:2008), and by propagation of distributions with a Monte Carlo method (JCGM\u00a0101:2008). This report tells whether the second validates the first (JCGM\u00a0101:2008, clause\u00a08).",
    records:
      "It is a technical record of the evaluation (ISO/IEC\u00a017025:2017, 7.5 and 7.6) and not a calibration certificate.",
    linear:
      "{result}, where the number after ± is the expanded uncertainty {U} = {k} {u}, with {uSymbol} = {u2} and the coverage factor {kSymbol} = {kValue}{freedom}, for a coverage probability of {p}.",
    freedom: " from the t distribution at {nu} effective degrees of freedom",
    fixedFactor: " fixed beforehand",
    monteCarlo:
      "The {p} coverage interval of {y} is {interval} ({kind}), with the estimate {estimate} and the standard uncertainty {u}, from {trials} Monte Carlo trials.",
    monteCarloBare:
      "The {p} coverage interval of {y} is {interval} ({kind}), from {trials} Monte Carlo trials. Its distribution has no {missing}.",
    mean: "mean",
    deviation: "standard deviation",
    meanAndDeviation: "mean and no standard deviation",
    instead: "The linear budget, which would state {result} with {kSymbol} = {kValue}, is not validated.",
    unclear:
      "Whether the linear budget, which would state {result} with {kSymbol} = {kValue}, is validated, the trials do not decide.",
    stamp: "Linear budget: {verdict}",
    rounding: "Rounded as JCGM\u00a0100:2008, 7.2.6 asks; all further figures stand in the tables below.",
    symmetric: "probabilistically symmetric",
    shortest: "shortest",
    notes: "Notes of the study",
  },
  toReport: {
    head: "On the certificate",
    linear:
      "{y} = {result}. The number after ± is the expanded uncertainty {U} = {k} {u}({y}) with the coverage factor {k} = {kValue}; the coverage probability is approximately {p}.",
    linearWithFreedom:
      "{y} = {result}. The number after ± is the expanded uncertainty {U} = {k} {u}({y}) with the coverage factor {k} = {kValue} from the t distribution at {nu} effective degrees of freedom; the coverage probability is approximately {p}.",
    fitted:
      "{y} = {result}. The number after ± is the expanded uncertainty {U} = {k} {u}({y}). Its coverage factor {k} = {kValue} follows from the distribution of the result, determined by propagation of distributions (JCGM 101:2008), for a coverage probability of {p}.",
    precedent: "EA-4/02 states results with a factor other than 2 for the same reason in its examples S9 and S10.",
    monteCarlo:
      "{y} lies in the interval from {range} with a coverage probability of {p}, determined by propagation of distributions (JCGM 101:2008){about}.",
    about: "; the estimate is {estimate}, the standard uncertainty {u}",
    open: "No result yet: do what is recommended first.",
    mayStand: "to be reported",
    withFactor: "to be reported with another k",
    interval: "to be reported",
    eitherWay: "may be reported, whatever further trials show",
    headline: "{y} = {result}  ({k}, p = {p})",
    headlineInterval: "{y} from {range}  (p = {p}, Monte Carlo)",
    headlineOpen: "{y}: no result to report yet",
    fromDistribution: "k = {k} from the result's distribution",
  },
  validation: {
    caption: "Comparison of the coverage intervals of {y} (JCGM\u00a0101:2008, 8.1)",
    digits: "Significant digits of {u}({y})",
    verdict: "Verdict",
    studied: "as the study asks",
    rule: "The budget is validated if neither endpoint of its coverage interval differs from the Monte Carlo endpoint by more than the numerical tolerance {delta}: {dLow} = |{y} − {U} − {ylow}| and {dHigh} = |{y} + {U} − {yhigh}| are both at most {delta}.",
    verdictHead: "Verdict",
    pairedHead: "By paired trials",
    whyHead: "Why the two methods differ",
    followsHead: "Recommendation",
    endsCaption:
      "The endpoints of both intervals, enlarged. Hatched: within {delta} of the linear endpoint. The bar at the Monte Carlo endpoint shows ± 2 standard errors.",
    movedBy: "moved by",
    endLow: "lower endpoint",
    endHigh: "upper endpoint",
    endName: "{end}: Monte Carlo endpoint less linear endpoint {difference}, tolerance {tolerance} {unit}",
    linearEnd: "linear",
    monteCarloEnd: "Monte Carlo",
    causesCaption:
      "What moves the endpoints of the interval of {y} from the linear budget to Monte Carlo: each bar is the Shapley value of one cause, {source}, and starts where the bar above it stopped. Hatched: within {delta} of the linear endpoint (dashed).",
    digitsName:
      "Both endpoints against the tolerance at one and at two digits: lower endpoint {low}, upper endpoint {high}; {tolerances}{unit}.",
    digitsTolerance: "± {delta} at {digits}: {value}",
    oneDigit: "one digit",
    twoDigits: "two digits",
    digitsHead: "At one and at two digits",
    digitsCaption:
      "Differences of the endpoints (marks, with ± 2 standard errors) against {delta} at one and at two significant digits of {u}({y}).",
    causesName: "Moves of the endpoints by cause",
    causesTable: "What each cause moves the endpoints of the interval of {y} by: Shapley values, {source}",
    causesExact: "shape and degrees of freedom computed exactly, curvature from {trials} paired trials",
    causesDrawn: "from {trials} trials",
    cause: "Cause",
    lowAlone: "Lower, by itself",
    highAlone: "Upper, by itself",
    shareOf: "Share",
    aboveAll: "above all by",
    curvature: "curvature of the model",
    shape: "shape of the inputs",
    degreesOfFreedom: "few degrees of freedom",
    remainder: "remaining scatter",
    difference: "total difference",
    interplay: "interplay of the causes, divided among the rows above",
  },
} as const;
