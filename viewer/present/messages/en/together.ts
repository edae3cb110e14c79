/** English words: several measurands together, and a calibration curve. `{…}` stands for what is filled in; other languages keep the same places. */
export const togetherWords = {
  joint: {
    intro:
      "The measurands share input quantities, so their uncertainties are not independent (JCGM\u00a0102:2011). A statement of several of them together needs their correlation, or a coverage region.",
    correlation: "Correlation coefficients of the measurands: linear budget, and Monte Carlo",
    pair: "Measurands",
    factors: "Factors of the {p} coverage regions",
    region: "Region",
    normal: "Normal distribution",
    ellipsoid: "Hyper-ellipsoid, {k} (JCGM\u00a0102:2011, 6.5.2, 7.7.2)",
    rectangle: "Hyper-rectangle, {k} (JCGM\u00a0102:2011, 6.5.3, 7.7.3)",
    pairFactor: "Ellipse of {a} and {b} alone",
    noCovariance:
      "The trials have no covariance: an input with so few degrees of freedom has no variance, so neither has what depends on it.",
    correlationBy: "Correlation of the measurands",
    singular: "No hyper-ellipsoid is given: the covariance matrix is singular or does not exist.",
    regions: "Smallest regions that hold at least {p}, from the trials counted in a mesh (JCGM\u00a0102:2011, 7.7.4)",
    area: "Area",
    held: "Share held",
    pictureCaption:
      "Pairs of measurands: a few hundred trials (dots), the smallest region that holds {p} (grey), and the ellipse of the linear budget for {p} (dashed).",
    pictureName: "{a} and {b}: trials, smallest coverage region and ellipse",
  },
  calibrationCurve: {
    intro:
      "The measurands are the parameters of a calibration curve: {y}, {meaning}, as a function of {x}. Its uncertainty at an argument follows from the linear budget of its value there, which carries the correlation of the parameters (JCGM\u00a0100:2008, H.3.4), and from the curve that each of {trials} Monte Carlo trials gives. Each interval holds at its argument by itself; it is no statement about the whole curve at once.",
    pictureCaption:
      "Bands of {p} coverage about the curve, as deviation from it: Monte Carlo (grey) and linear budget (dashed){observed}.",
    observed: "; rings: the points it was fitted to",
    pictureName: "Bands of both methods about the calibration curve of {y}",
    caption: "The calibration curve by both methods, with {p} coverage intervals",
    linearUncertainty: "Linear {u}{unit}",
    linearInterval: "Linear interval",
    monteCarloUncertainty: "Monte Carlo {u}{unit}",
    monteCarloInterval: "Monte Carlo interval",
  },
  sweep: {
    intro: "The study repeats the evaluation over a range of {quantity}.",
    all: "The budget is validated at all {count} points.",
    some: "The budget is validated at {held} of {count} points.",
    notAt: "It is not validated at {places}.",
    openAt: "The trials do not decide it at {places}.",
    caption: "Results of both methods for {y} at every point, at {p} coverage",
    linearInterval: "Linear interval",
    monteCarloInterval: "Monte Carlo interval",
    needed: "{k} needed",
    budget: "Budget",
    part: "Part",
    andOthers: "{places} and {count} others",
    gridCaption:
      "Expanded uncertainty {U} of {y} in {unit} by the linear budget; across: {second}; * not validated or undecided",
    gridPictureName: "Expanded uncertainty of {y} against {quantity}, a line for each value of {second}",
    gridPictureCaption:
      "Expanded uncertainty of {y} by the linear budget over {quantity}, a line for each value of {second}.",
    pictureName: "Estimate and both intervals of {y} against {quantity}",
    pictureCaption:
      "{y} at the points of the range: Monte Carlo (solid) and linear budget (dashed) with their {p} intervals; nothing was computed between them.",
  },
  leftOut: {
    title: "Optional inputs that are left out",
    intro:
      "The model has further inputs that a study may leave out. Each of these was taken as zero, with the reason that the study states.",
    caption: "Checklist of the optional inputs taken as zero",
    quantity: "Quantity",
    standing: "Standing",
    reason: "Reason",
    negligible: "judged negligible",
    optional: "Optional inputs",
    optionalHelp:
      "State each of these, or say why it is left out. What has neither is taken as zero, and the record says so.",
    why: "Why it is left out",
    whyHelp: "In a sentence, if its distribution is not stated",
    unexplained: "left out, no reason stated",
  },
} as const;
