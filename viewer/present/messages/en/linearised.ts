/** English words: the linearised model with the stated distributions. `{…}` stands for what is filled in; other languages keep the same places. */
export const linearisedWords = {
  linearised: {
    intro:
      "The linear budget simplifies twice: it takes the model as linear, and a normal or a t in place of the stated distributions. The linearised model with the stated distributions simplifies once; its distribution is a convolution and is computed without trials. What the budget and this distribution differ by comes from the distributions and their degrees of freedom; what it and Monte Carlo differ by comes from the non-linearity of the model and the scatter of the trials.",
    caption:
      "Results of the linear budget, the linearised model with the stated distributions, and Monte Carlo for {y} ({p}, {kind})",
    linearised: "Linearised, stated distributions",
    factor: "Coverage factor {k}",
    pictureCaption:
      "Density of {y}: trials (filled outline), linearised model with the stated distributions (line) and linear budget (dashed), with the {p} interval of each.",
    pictureName:
      "Density of {y} three times: {p} interval of the linear budget {linear}, of the linearised model with the stated distributions {linearised}, by Monte Carlo {monteCarlo} {unit}.",
    lane: "linearised, stated distributions",
    laneLinear: "linear budget",
    absent: "The record holds no linearised distribution of this measurand.",
    laneMonteCarlo: "Monte Carlo",
  },
} as const;
