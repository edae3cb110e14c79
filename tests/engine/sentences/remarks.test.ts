import { everyMessage } from "./every-message.ts";

everyMessage("remarks", [
  [
    { kind: "noFourthMoment", symbols: ["R_X"], results: ["e"] },
    "The distribution of R_X has no fourth moment (ν ≤ 4), so the Monte Carlo u(e) has no standard error: it settles slowly, mostly from below, and the adaptive procedure does not wait for it. The endpoints are not affected.",
    "Die Verteilung von R_X hat kein viertes Moment (ν ≤ 4); das u(e) der Monte-Carlo-Methode hat daher keine eigene Standardabweichung: Es wird langsam stabil, meist von unten, und das adaptive Verfahren wartet nicht darauf. Die Endpunkte sind davon nicht betroffen.",
  ],
  [
    { kind: "noFourthMoment", symbols: ["R_X", "t_S"], results: ["e", "f"] },
    "The distributions of R_X and t_S have no fourth moment (ν ≤ 4), so the Monte Carlo standard uncertainty has no standard error: it settles slowly, mostly from below, and the adaptive procedure does not wait for it. The endpoints are not affected.",
    "Die Verteilungen von R_X und t_S haben kein viertes Moment (ν ≤ 4); die Standardunsicherheit der Monte-Carlo-Methode hat daher keine eigene Standardabweichung: Sie wird langsam stabil, meist von unten, und das adaptive Verfahren wartet nicht darauf. Die Endpunkte sind davon nicht betroffen.",
  ],
  [
    { kind: "heavyTail", symbol: "e", index: 1.04, mean: false },
    "A tail of e falls off so slowly (with a power of about 1) that neither its mean nor u(e) settles, as for a distribution that has none: their Monte Carlo figures depend on a few trials and have no standard error. The endpoints exist; state the coverage interval.",
    "Ein Ausläufer von e fällt so langsam ab (etwa mit der Potenz 1), dass weder der Mittelwert noch u(e) stabil wird, wie bei einer Verteilung, die keine hat: Die Monte-Carlo-Werte hängen von wenigen Versuchen ab und haben keine eigene Standardabweichung. Die Endpunkte existieren; anzugeben ist das Überdeckungsintervall.",
  ],
  [
    { kind: "heavyTail", symbol: "e", index: 1.6, mean: true },
    "A tail of e falls off so slowly (with a power of about 1.6) that u(e) does not settle, as for a distribution that has none: their Monte Carlo figures depend on a few trials and have no standard error. The endpoints exist; state the coverage interval.",
    "Ein Ausläufer von e fällt so langsam ab (etwa mit der Potenz 1,6), dass u(e) nicht stabil wird, wie bei einer Verteilung, die keines hat: Die Monte-Carlo-Werte hängen von wenigen Versuchen ab und haben keine eigene Standardabweichung. Die Endpunkte existieren; anzugeben ist das Überdeckungsintervall.",
  ],
  [
    { kind: "fewTrials", trials: 50000, recommended: 200000, probability: 0.95 },
    "50000 trials are fewer than the 200000, 10⁴/(1 − p), recommended for a coverage probability of 95 % (JCGM 101, 7.2.2); the standard errors show how far the endpoints are known.",
    "50000 Versuche sind weniger als die 200000, also 10⁴/(1 − p), die für eine Überdeckungswahrscheinlichkeit von 95 % empfohlen sind (JCGM 101, 7.2.2); wie genau die Endpunkte bekannt sind, zeigen ihre Standardabweichungen.",
  ],
  [
    { kind: "rounding", symbol: "ν" },
    "The last bit of the double-precision numbers that ν is computed with is more than a tenth of δ, so rounding decides the result. State the quantity as its deviation from a nominal value.",
    "Das letzte Bit der Zahlen doppelter Genauigkeit, mit denen ν berechnet wird, ist mehr als ein Zehntel von δ; das Ergebnis hängt daher von Rundungen ab. Die Größe ist als Abweichung von einem Nennwert anzugeben.",
  ],
  [
    { kind: "sharesAbove", symbol: "y", sum: 1.8, taken: 0.8, between: [["a", "b"]] },
    "The shares of u²(y) add to 180 %, since the correlation between a and b takes 80 % from them: a share above 100 % is what the input would contribute without it.",
    "Die Anteile an u²(y) ergeben zusammen 180 %, weil die Korrelation zwischen a und b 80 % davon wegnimmt: Ein Anteil über 100 % ist, was die Eingangsgröße ohne sie beitrüge.",
  ],
  [
    { kind: "counted", symbol: "e", resolution: 0.1, unit: "°C", timesSmaller: 0.5 },
    "The trials of e were counted in bins and not kept: the endpoints of its symmetric interval are known to within 0.1 °C, which is 2 times larger than δ.",
    "Die Versuche von e wurden in Klassen gezählt und nicht behalten: Die Endpunkte des wahrscheinlichkeitssymmetrischen Intervalls sind auf 0,1 °C bekannt; das ist das 2-Fache von δ.",
  ],
  [
    { kind: "tDiffers", symbols: ["R_X", "t_S"] },
    "For R_X and t_S the two methods differ by definition: the budget takes the standard uncertainty with its degrees of freedom (JCGM 100, 4.2), while Monte Carlo draws from a t distribution, whose standard deviation is larger by √(ν/(ν − 2)) (JCGM 101, 6.4.9).",
    "Für R_X und t_S unterscheiden sich die Verfahren schon in der Definition: Das Budget verwendet die Standardunsicherheit mit ihren Freiheitsgraden (JCGM 100, 4.2), Monte Carlo zieht aus einer t-Verteilung, deren Standardabweichung um den Faktor √(ν/(ν − 2)) größer ist (JCGM 101, 6.4.9).",
  ],
  [
    { kind: "noStandardDeviation", symbols: ["R_X"] },
    "The distribution of R_X has no standard deviation (ν ≤ 2), so Monte Carlo gives none for the result. The coverage interval exists and is given.",
    "Die Verteilung von R_X hat keine Standardabweichung (ν ≤ 2); Monte Carlo gibt daher auch für das Ergebnis keine an. Das Überdeckungsintervall existiert und ist angegeben.",
  ],
  [
    {
      kind: "drawnTogether",
      symbols: ["V", "I", "φ"],
      from: "multivariate t",
      correlations: [
        { between: ["V", "I"], coefficient: -0.35531 },
        { between: ["V", "φ"], coefficient: 0.8576 },
      ],
      degreesOfFreedom: 2,
      stated: true,
    },
    "V, I and φ are drawn together from a multivariate t distribution with ν = 2; the correlation of their values is r(V, I) = −0.3553, r(V, φ) = 0.8576.",
    "V, I und φ werden gemeinsam aus einer mehrdimensionalen t-Verteilung mit ν = 2 gezogen; die Korrelation ihrer Werte ist r(V; I) = −0,3553; r(V; φ) = 0,8576.",
  ],
  [
    {
      kind: "drawnTogether",
      symbols: ["a", "b"],
      from: "multivariate t",
      correlations: [{ between: ["a", "b"], coefficient: 0.1 }],
      degreesOfFreedom: 5,
      stated: false,
    },
    "a and b are drawn together from a multivariate t distribution with ν = 5; the correlation of their values is r(a, b) = 0.1. They share their scatter, as simultaneous readings do (JCGM 102, 5.3.2), and are not independent even if r is 0. If each has its own series, state the correlation's series as separate.",
    "a und b werden gemeinsam aus einer mehrdimensionalen t-Verteilung mit ν = 5 gezogen; die Korrelation ihrer Werte ist r(a; b) = 0,1. Sie haben ihre Streuung gemeinsam, wie gleichzeitige Ablesungen (JCGM 102, 5.3.2), und sind auch dann nicht unabhängig, wenn r gegen 0 geht. Für eigene Reihen geben Sie die Reihen der Korrelation als getrennt an (separate).",
  ],
  [
    {
      kind: "drawnTogether",
      symbols: ["a", "b"],
      from: "Gaussian copula",
      correlations: [{ between: ["a", "b"], coefficient: 0.1 }],
      degreesOfFreedom: null,
      stated: false,
    },
    "a and b are drawn together from a Gaussian copula; the correlation of their values is r(a, b) = 0.1.",
    "a und b werden gemeinsam aus einer Gauß-Copula gezogen; die Korrelation ihrer Werte ist r(a; b) = 0,1.",
  ],
  [
    { kind: "autocorrelated", symbol: "t_S", count: 50, lagOne: 0.938, effective: 3.125 },
    "The 50 readings of t_S follow one another closely: their autocorrelation at lag 1 is 0.94, so they are worth about 3.1 independent readings, and s/√n understates the standard uncertainty of their mean by a factor of about 4 (JCGM 100, 4.2.7).",
    "Die 50 Ablesungen von t_S folgen eng aufeinander: Ihre Autokorrelation beim Abstand 1 ist 0,94; sie sind daher etwa 3,1 unabhängige Ablesungen wert, und s/√n ist als Standardunsicherheit ihres Mittelwerts etwa um den Faktor 4 zu klein (JCGM 100, 4.2.7).",
  ],
  [
    {
      kind: "fewDegreesOfFreedom",
      symbol: "e",
      factor: 2,
      degreesOfFreedom: 5.219,
      covered: 0.9012,
      needed: 2.6093,
    },
    "The fixed factor k = 2 assumes more degrees of freedom than the budget of e has: with 5.22 effective degrees of freedom it covers 90.1 %, and k = 2.61 would cover what it claims (JCGM 100, G.6.4).",
    "Der feste Erweiterungsfaktor k = 2 setzt mehr Freiheitsgrade voraus, als das Budget von e hat: Bei 5,22 effektiven Freiheitsgraden überdeckt er 90,1 %; k = 2,61 würde überdecken, was er verspricht (JCGM 100, G.6.4).",
  ],
  [
    { kind: "notSmooth", symbol: "e", symbols: ["t_S"] },
    "At the estimate of t_S the model of e has a kink or a step, so its sensitivity coefficient there is not one number: the linear budget does not describe it, and there is no second-order budget. Use the Monte Carlo interval.",
    "Am Schätzwert von t_S hat das Modell von e einen Knick oder eine Stufe; sein Empfindlichkeitskoeffizient ist dort keine einzelne Zahl. Das lineare Budget beschreibt es nicht, und ein Budget zweiter Ordnung gibt es nicht. Verwenden Sie das Monte-Carlo-Intervall.",
  ],
  [
    { kind: "dominant", symbol: "e", input: "t_S", share: 0.99971, unit: "°C" },
    "t_S alone makes up 99.97 % of u²(e). Check that its figures are in °C.",
    "t_S allein macht 99,97 % von u²(e) aus. Prüfen Sie, ob seine Werte in °C stehen.",
  ],
  [
    { kind: "fixedFactor", factor: 2, probability: 0.9544997 },
    "The budget uses the fixed factor k = 2; the Monte Carlo interval has the coverage probability that this factor gives for a normal distribution, 95.45 %.",
    "Das Budget verwendet den festen Erweiterungsfaktor k = 2; das Monte-Carlo-Intervall hat die Überdeckungswahrscheinlichkeit, die dieser Faktor für eine Normalverteilung ergibt, 95,45 %.",
  ],
  [
    {
      kind: "fitted",
      symbol: "R",
      unit: "Ω",
      points: 5,
      degreesOfFreedom: 2,
      residualDeviation: 0.000123,
      largest: 0.00045,
      argument: { symbol: "t", unit: "°C" },
    },
    "The 5 points leave the curve of R by s = 0.00012 Ω with 2 degrees of freedom; the largest residual is 0.00045 °C of t. What the curve departs from the truth between its points is in the budget only where an input states it.",
    "Die 5 Punkte weichen mit s = 0,00012 Ω bei 2 Freiheitsgraden von der Kurve von R ab; die größte Abweichung entspricht 0,00045 °C in t. Was die Kurve zwischen ihren Punkten vom wahren Verlauf abweicht, steht nur dann im Budget, wenn eine Eingangsgröße es angibt.",
  ],
  [
    {
      kind: "fitted",
      symbol: "R",
      unit: "Ω",
      points: 4,
      degreesOfFreedom: 0,
      residualDeviation: null,
      largest: 0,
      argument: { symbol: "t", unit: "°C" },
    },
    "The curve of R has as many parameters as points (4) and passes through all of them, so that it does not show how well its form fits. What the curve departs from the truth between its points is in the budget only where an input states it.",
    "Die Kurve von R hat so viele Parameter wie Punkte (4) und geht durch alle; sie zeigt daher nicht, wie gut ihre Form passt. Was die Kurve zwischen ihren Punkten vom wahren Verlauf abweicht, steht nur dann im Budget, wenn eine Eingangsgröße es angibt.",
  ],
  [
    { kind: "undefinedTrials", count: 0, drawn: 10000 },
    "The study leaves out trials for which the model is undefined; of 10000 drawn there was none.",
    "Die Studie lässt Versuche aus, für die das Modell nicht definiert ist; von 10000 gezogenen war es keiner.",
  ],
  [
    { kind: "undefinedTrials", count: 232, drawn: 10232 },
    "232 of 10232 trials drawn, 2.3 %, were left out since the model is undefined for them. The Monte Carlo result is that of the inputs given that the model is defined. There is no explanation of its difference from the linear budget and no band of a curve: these compare models trial by trial, and the linear model is defined where this one is not.",
    "232 von 10232 gezogenen Versuchen, 2,3 %, wurden ausgelassen, da das Modell für sie nicht definiert ist. Das Monte-Carlo-Ergebnis gilt für die Eingangsgrößen unter der Bedingung, dass das Modell definiert ist. Der Unterschied zum linearen Budget wird nicht erklärt, und es gibt kein Band einer Kurve: Beide vergleichen Modelle Versuch für Versuch, und das lineare Modell ist auch dort definiert, wo dieses es nicht ist.",
  ],
  [
    { kind: "noJointFigures", symbols: ["a", "b"] },
    "The covariances of a and b lie beyond the range of double-precision numbers, so there are no joint figures. State the quantities in units in which their values are nearer 1.",
    "Die Kovarianzen von a und b liegen außerhalb des Bereichs von Zahlen doppelter Genauigkeit; daher gibt es keine gemeinsamen Angaben. Geben Sie die Größen in Einheiten an, in denen ihre Werte näher bei 1 liegen.",
  ],
  [{ kind: "noSource", symbols: ["t_S"] }, "No source is stated for t_S.", "Für t_S ist keine Quelle angegeben."],
  [
    { kind: "engineBits" },
    "The model uses functions whose last bits differ between JavaScript engines, so this record reproduces exactly, bit for bit, only on the same engine version.",
    "Das Modell verwendet Funktionen, deren letzte Bits sich zwischen JavaScript-Umgebungen unterscheiden; dieses Protokoll lässt sich daher nur mit derselben Version der Umgebung bis aufs Bit reproduzieren.",
  ],
  [
    { kind: "counted", symbol: "e", resolution: 0.0000061, unit: "°C", timesSmaller: 82.4 },
    "The trials of e were counted in bins and not kept: the endpoints of its symmetric interval are known to within 0.0000061 °C, which is 82 times smaller than δ.",
    "Die Versuche von e wurden in Klassen gezählt und nicht behalten: Die Endpunkte des wahrscheinlichkeitssymmetrischen Intervalls sind auf 0,0000061 °C bekannt; δ ist das 82-Fache davon.",
  ],
]);
