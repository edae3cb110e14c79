// Every fact in every language: the sentence it makes, with the same figures and symbols in each.
import type { Chance } from "../../../engine/record/chance.ts";
import { describe, expect, test } from "vitest";
import { de } from "../../../engine/sentences/de/index.ts";
import { en } from "../../../engine/sentences/en/index.ts";
import { sayOne, type Facts, type MessageTable } from "../../../engine/sentences/messages.ts";
import { numbersIn } from "./numbers-in.ts";

const kelvin = (value: number, decimals: number) => ({ value, decimals, unit: "°C" });
const shape = {
  cause: "shape",
  share: 0.9,
  inputs: [{ symbol: "δt_ax", distribution: "rectangular", share: 0.77 }],
  move: kelvin(0.0062, 4),
  effect: "narrows",
} as const;
const freedom = {
  cause: "degreesOfFreedom",
  share: 0.1,
  inputs: [{ symbol: "R_X", degreesOfFreedom: 9 }],
  move: kelvin(0.0057, 4),
  effect: "widens",
} as const;
const curvature = { cause: "curvature", share: 1, inputs: [], move: kelvin(0.02, 3), effect: "shifts" } as const;
const compared = { significantDigits: 1, difference: kelvin(0.0021, 4), tolerance: kelvin(0.005, 4) } as const;
const chance = (value: number): Chance => ({ value, rest: 1 - value });
const byPairs = {
  difference: kelvin(0.00212, 5),
  standardError: kelvin(0.00003, 5),
  tolerance: kelvin(0.005, 5),
  margin: kelvin(0.003, 3),
} as const;
const PAIRS =
  "Paired trials (each also through the linearised model, whose distribution is known exactly, so that only what the two differ by is left to chance) give d =";
const PAARE =
  "Gepaarte Versuche (jeder auch durch das linearisierte Modell, dessen Verteilung genau bekannt ist, sodass nur der Unterschied dem Zufall überlassen bleibt) ergeben d =";
const decision = {
  kind: "decision",
  rule: "guarded acceptance",
  guardBand: { lower: kelvin(0.016, 3), upper: kelvin(0.016, 3), at: "each", side: "inside" },
  symbol: "e",
  estimate: kelvin(-0.041, 3),
  decision: "accepted",
  tolerance: { lower: -0.2224, upper: 0.2224, basis: null },
  unit: "°C",
} as const;

type Row<F> = readonly [fact: F, english: string, german: string];
const TOPICS: { readonly [T in keyof Facts]: readonly Row<Facts[T]>[] } = {
  verdict: [
    [
      { kind: "nothingVaries" },
      "Nothing varies: neither the linear budget nor the trials find any uncertainty, so there is nothing to validate.",
      "Nichts variiert: Weder das lineare Budget noch die Versuche ergeben eine Unsicherheit; es gibt nichts zu validieren.",
    ],
    [
      { kind: "noLinearUncertainty", because: "coefficients" },
      "The linear budget finds no uncertainty, since every sensitivity coefficient vanishes at the estimates. It is not validated; use the Monte Carlo interval.",
      "Das lineare Budget ergibt keine Unsicherheit, weil alle Empfindlichkeitskoeffizienten an den Schätzwerten verschwinden. Es ist nicht validiert; zu verwenden ist das Monte-Carlo-Intervall.",
    ],
    [
      { kind: "noLinearUncertainty", because: "correlation" },
      "The linear budget finds no uncertainty, since correlated contributions cancel. It is not validated; use the Monte Carlo interval.",
      "Das lineare Budget ergibt keine Unsicherheit, weil sich korrelierte Beiträge aufheben. Es ist nicht validiert; zu verwenden ist das Monte-Carlo-Intervall.",
    ],
    [
      { kind: "undecided", ...compared, doubts: ["scatter"], standardError: kelvin(0.0004, 4) },
      "The trials do not decide whether the linear budget is validated to 1 significant digit of u(y): the endpoints of its interval differ from the Monte Carlo endpoints by at most 0.0021 °C, δ = 0.0050 °C, and the scatter of the Monte Carlo endpoint (standard error 0.0004 °C) allows either.",
      "Die Versuche entscheiden nicht, ob das lineare Budget auf 1 signifikante Stelle von u(y) validiert ist: Die Endpunkte seines Überdeckungsintervalls weichen von denen der Monte-Carlo-Methode um höchstens 0,0021 °C ab, die numerische Toleranz ist δ = 0,0050 °C, und die Streuung des Monte-Carlo-Endpunkts (Standardabweichung 0,0004 °C) lässt beides zu.",
    ],
    [
      { kind: "undecided", ...compared, doubts: ["scatterUnknown", "fewTrials", "rounding"], standardError: null },
      "The trials do not decide whether the linear budget is validated to 1 significant digit of u(y): the endpoints of its interval differ from the Monte Carlo endpoints by at most 0.0021 °C, δ = 0.0050 °C, and the scatter of the Monte Carlo endpoints is not known from so few batches, fewer than 50 trials lie beyond each endpoint and the last bit of the numbers computed with is more than a tenth of δ.",
      "Die Versuche entscheiden nicht, ob das lineare Budget auf 1 signifikante Stelle von u(y) validiert ist: Die Endpunkte seines Überdeckungsintervalls weichen von denen der Monte-Carlo-Methode um höchstens 0,0021 °C ab, die numerische Toleranz ist δ = 0,0050 °C, und die Streuung der Monte-Carlo-Endpunkte ist aus so wenigen Serien nicht bekannt, jenseits jedes Endpunkts liegen weniger als 50 Versuche und das letzte Bit der Zahlen, mit denen gerechnet wird, ist mehr als ein Zehntel von δ.",
    ],
    [
      { kind: "displaced", direction: "higher" },
      "The two intervals are equally wide, but the Monte Carlo interval lies higher at both endpoints.",
      "Die beiden Intervalle sind gleich breit, das Monte-Carlo-Intervall liegt aber an beiden Endpunkten höher.",
    ],
    [
      { kind: "displaced", direction: "lower" },
      "The two intervals are equally wide, but the Monte Carlo interval lies lower at both endpoints.",
      "Die beiden Intervalle sind gleich breit, das Monte-Carlo-Intervall liegt aber an beiden Endpunkten tiefer.",
    ],
    [
      { kind: "oneEndpoint", endpoint: "upper", direction: "out" },
      "The upper Monte Carlo endpoint lies further out than the linear one; the other endpoints agree within the scatter of the trials.",
      "Der obere Endpunkt der Monte-Carlo-Methode liegt weiter außen als der lineare; die anderen Endpunkte stimmen innerhalb der Streuung der Versuche überein.",
    ],
    [
      { kind: "oneEndpoint", endpoint: "lower", direction: "in" },
      "The lower Monte Carlo endpoint lies further in than the linear one; the other endpoints agree within the scatter of the trials.",
      "Der untere Endpunkt der Monte-Carlo-Methode liegt weiter innen als der lineare; die anderen Endpunkte stimmen innerhalb der Streuung der Versuche überein.",
    ],
    [
      { kind: "tooWide", fraction: 0.00012, offCentre: false },
      "The linear interval is 0.012 % wider than necessary.",
      "Das lineare Intervall ist um 0,012 % breiter als nötig.",
    ],
    [
      { kind: "validated", ...compared },
      "The linear budget is validated to 1 significant digit of u(y): the endpoints of its interval differ from the Monte Carlo endpoints by at most 0.0021 °C, within δ = 0.0050 °C.",
      "Das lineare Budget ist auf 1 signifikante Stelle von u(y) validiert: Die Endpunkte seines Überdeckungsintervalls weichen von denen der Monte-Carlo-Methode um höchstens 0,0021 °C ab, was innerhalb der numerischen Toleranz δ = 0,0050 °C liegt.",
    ],
    [
      { kind: "notValidated", ...compared, significantDigits: 2 },
      "The linear budget is not validated to 2 significant digits of u(y): an endpoint of its interval lies 0.0021 °C from the Monte Carlo endpoint, more than δ = 0.0050 °C.",
      "Das lineare Budget ist auf 2 signifikante Stellen von u(y) nicht validiert: Ein Endpunkt seines Überdeckungsintervalls weicht von dem der Monte-Carlo-Methode um 0,0021 °C ab, mehr als die numerische Toleranz δ = 0,0050 °C.",
    ],
    [
      { kind: "tooWide", fraction: 0.054, offCentre: false },
      "The linear interval is 5.4 % wider than necessary.",
      "Das lineare Intervall ist um 5,4 % breiter als nötig.",
    ],
    [
      { kind: "tooNarrow", fraction: 0.47, offCentre: true },
      "The linear interval is 47 % too narrow, and the Monte Carlo interval is not centred on the estimate.",
      "Das lineare Intervall ist um 47 % zu schmal, und das Monte-Carlo-Intervall liegt nicht symmetrisch zum Schätzwert.",
    ],
    [
      { kind: "factorNeeded", factor: 1.856 },
      "A coverage factor k = 1.86 would make it as wide as the Monte Carlo interval.",
      "Mit dem Erweiterungsfaktor k = 1,86 wäre es so breit wie das Monte-Carlo-Intervall.",
    ],
    [
      { kind: "validatedAt", significantDigits: 1 },
      "To 1 significant digit of u(y) it is validated.",
      "Auf 1 signifikante Stelle von u(y) ist es validiert.",
    ],
    [
      { kind: "firmUnsettled" },
      "The Monte Carlo figures have not stabilised to δ/5, but the verdict does not depend on that.",
      "Die Monte-Carlo-Werte sind noch nicht auf δ/5 stabil; das Urteil hängt davon aber nicht ab.",
    ],
  ],
  paired: [
    [
      { kind: "stands", decision: "validated", ...byPairs, trialsNeeded: null },
      `${PAIRS} 0.00212 °C with standard error 0.00003 °C, δ = 0.00500 °C: the verdict stands.`,
      `${PAARE} 0,00212 °C mit der Standardabweichung 0,00003 °C, δ = 0,00500 °C: Das Urteil bleibt.`,
    ],
    [
      { kind: "stands", decision: "notValidated", ...byPairs, trialsNeeded: 3_100_000 },
      `${PAIRS} 0.00212 °C with standard error 0.00003 °C, δ = 0.00500 °C: the verdict stands; by themselves about 3\u202f100\u202f000 trials would show it.`,
      `${PAARE} 0,00212 °C mit der Standardabweichung 0,00003 °C, δ = 0,00500 °C: Das Urteil bleibt; allein zeigten es erst etwa 3\u202f100\u202f000 Versuche.`,
    ],
    [
      { kind: "otherwise", decision: "validated", ...byPairs, trialsNeeded: 7000 },
      `${PAIRS} 0.00212 °C with standard error 0.00003 °C, δ = 0.00500 °C: with more trials the budget would be validated; by themselves about 7000 trials would show it.`,
      `${PAARE} 0,00212 °C mit der Standardabweichung 0,00003 °C, δ = 0,00500 °C: Mit mehr Versuchen wäre das Budget validiert; allein zeigten es erst etwa 7000 Versuche.`,
    ],
    [
      { kind: "otherwise", decision: "notValidated", ...byPairs, trialsNeeded: 7000 },
      `${PAIRS} 0.00212 °C with standard error 0.00003 °C, δ = 0.00500 °C: with more trials the budget would not be validated; by themselves about 7000 trials would show it.`,
      `${PAARE} 0,00212 °C mit der Standardabweichung 0,00003 °C, δ = 0,00500 °C: Mit mehr Versuchen wäre das Budget nicht validiert; allein zeigten es erst etwa 7000 Versuche.`,
    ],
    [
      { kind: "undecided", decision: "undecided", ...byPairs, trialsNeeded: null },
      `${PAIRS} 0.00212 °C with standard error 0.00003 °C, δ = 0.00500 °C: they do not decide; d and δ are not known to differ by more than 0.003 °C.`,
      `${PAARE} 0,00212 °C mit der Standardabweichung 0,00003 °C, δ = 0,00500 °C: Sie entscheiden nicht; dass sich d und δ um mehr als 0,003 °C unterscheiden, ist nicht bekannt.`,
    ],
    [
      { kind: "shortest" },
      "There are no paired trials, since the study's interval is the shortest one, whose place they do not sharpen.",
      "Gepaarte Versuche gibt es nicht, weil das Intervall der Studie das kürzeste ist, dessen Lage sie nicht genauer ergeben.",
    ],
    [
      { kind: "leftOut" },
      "There are no paired trials, since trials for which the model is undefined are left out.",
      "Gepaarte Versuche gibt es nicht, weil Versuche ausgelassen werden, für die das Modell nicht definiert ist.",
    ],
    [
      { kind: "noLinearUncertainty" },
      "There are no paired trials, since the linear budget finds no uncertainty.",
      "Gepaarte Versuche gibt es nicht, weil das lineare Budget keine Unsicherheit ergibt.",
    ],
    [
      { kind: "accuracy" },
      "There are no paired trials, since the endpoints of the linearised model are not known to δ/1000.",
      "Gepaarte Versuche gibt es nicht, weil die Endpunkte des linearisierten Modells nicht auf δ/1000 bekannt sind.",
    ],
    [
      { kind: "fewAtEndpoint" },
      "There are no paired trials, since too few different values lie about an endpoint.",
      "Gepaarte Versuche gibt es nicht, weil um einen Endpunkt zu wenige verschiedene Werte liegen.",
    ],
    [
      { kind: "noStandardDeviation", inputs: ["R_X", "t_ref"] },
      "There are no paired trials, since the distribution of R_X and t_ref has no standard deviation.",
      "Gepaarte Versuche gibt es nicht, weil die Verteilung von R_X und t_ref keine Standardabweichung hat.",
    ],
    [
      { kind: "copula", inputs: ["R_X", "t_ref"] },
      "There are no paired trials, since R_X and t_ref depend on one another by a Gaussian copula, of whose sum no distribution is known.",
      "Gepaarte Versuche gibt es nicht, weil R_X und t_ref durch eine Gauß-Copula voneinander abhängen, für deren Summe keine Verteilung bekannt ist.",
    ],
  ],
  explanation: [
    [
      { kind: "uncertainSpread", linearFactor: 2, factorNeeded: 3.754 },
      "With so few degrees of freedom the spread is itself uncertain: a larger factor than k = 2.00 is necessary, k = 3.75.",
      "Bei so wenigen Freiheitsgraden ist die Streuung selbst unsicher: Es ist ein größerer Faktor als k = 2,00 nötig, k = 3,75.",
    ],
    [
      {
        kind: "opposed",
        difference: kelvin(0.0005, 4),
        pushing: [{ ...shape, share: 1 }],
        takingBack: [{ ...freedom, share: -0.92 }],
      },
      "The endpoints differ by up to 0.0005 °C: the shape of the inputs, above all δt_ax (rectangular, 77 % of u²), narrows the interval by 0.0062 °C at one endpoint. Few degrees of freedom, above all R_X (ν = 9), take 0.0057 °C of this back.",
      "Die Endpunkte unterscheiden sich um bis zu 0,0005 °C: die Form der Eingangsverteilungen, vor allem δt_ax (Rechteckverteilung, 77 % von u²), verschmälert das Intervall an einem Endpunkt um 0,0062 °C. Die kleine Zahl der Freiheitsgrade, vor allem R_X (ν = 9), nimmt 0,0057 °C davon zurück.",
    ],
    [
      {
        kind: "opposed",
        difference: kelvin(0.0005, 4),
        pushing: [
          { ...shape, share: 0.7 },
          { ...freedom, share: 0.3 },
        ],
        takingBack: [{ ...curvature, share: -0.3 }],
      },
      "The endpoints differ by up to 0.0005 °C: the shape of the inputs, above all δt_ax (rectangular, 77 % of u²), narrows the interval by 0.0062 °C at one endpoint; few degrees of freedom, above all R_X (ν = 9), widen the interval by 0.0057 °C at one endpoint (70 % and 30 % of the push). The curvature of the model takes 0.020 °C of this back.",
      "Die Endpunkte unterscheiden sich um bis zu 0,0005 °C: die Form der Eingangsverteilungen, vor allem δt_ax (Rechteckverteilung, 77 % von u²), verschmälert das Intervall an einem Endpunkt um 0,0062 °C; die kleine Zahl der Freiheitsgrade, vor allem R_X (ν = 9), verbreitert das Intervall an einem Endpunkt um 0,0057 °C (70 % und 30 % der Verschiebung). Die Krümmung des Modells nimmt 0,020 °C davon zurück.",
    ],
    [
      { kind: "unresolved", remainder: kelvin(0.0003, 4) },
      "These parts are not resolved: 0.0003 °C is left over as the scatter of the trials.",
      "Diese Anteile sind nicht aufgelöst: 0,0003 °C bleiben als Streuung der Versuche übrig.",
    ],
    [
      { kind: "allowanceUnused", linearFactor: 2.31 },
      "The budget's k = 2.31 allows for degrees of freedom that the trials leave out.",
      "Der Faktor k = 2,31 des Budgets berücksichtigt Freiheitsgrade, die in den Versuchen nicht vorkommen.",
    ],
    [
      { kind: "noCause" },
      "The two intervals agree within the scatter of the trials: neither curvature, shape nor few degrees of freedom move the endpoints.",
      "Die beiden Intervalle stimmen innerhalb der Streuung der Versuche überein: Weder Krümmung noch Form noch eine kleine Zahl der Freiheitsgrade verschiebt die Endpunkte.",
    ],
    [
      { kind: "causes", difference: kelvin(0.0123, 4), causes: [shape, freedom] },
      "The endpoints differ by up to 0.0123 °C: 90 % of the difference comes from the shape of the inputs, above all δt_ax (rectangular, 77 % of u²); 10 % from few degrees of freedom, above all R_X (ν = 9).",
      "Die Endpunkte unterscheiden sich um bis zu 0,0123 °C. Von dieser Differenz stammen 90 % aus der Form der Eingangsverteilungen, vor allem δt_ax (Rechteckverteilung, 77 % von u²); 10 % aus der kleinen Zahl der Freiheitsgrade, vor allem R_X (ν = 9).",
    ],
    [
      { kind: "cancelling", difference: kelvin(0.0005, 4), causes: [shape, freedom, curvature] },
      "The endpoints differ by only 0.0005 °C because larger effects cancel: the shape of the inputs, above all δt_ax (rectangular, 77 % of u²), narrows the interval by 0.0062 °C at one endpoint; few degrees of freedom, above all R_X (ν = 9), widen the interval by 0.0057 °C at one endpoint; the curvature of the model shifts the interval by 0.020 °C at one endpoint.",
      "Die Endpunkte unterscheiden sich nur um 0,0005 °C, weil sich größere Einflüsse aufheben: die Form der Eingangsverteilungen, vor allem δt_ax (Rechteckverteilung, 77 % von u²), verschmälert das Intervall an einem Endpunkt um 0,0062 °C; die kleine Zahl der Freiheitsgrade, vor allem R_X (ν = 9), verbreitert das Intervall an einem Endpunkt um 0,0057 °C; die Krümmung des Modells verschiebt das Intervall an einem Endpunkt um 0,020 °C.",
    ],
    [
      { kind: "boundedShape", linearFactor: 2, factorNeeded: 1.857 },
      "A distribution with limits has no tails: a smaller factor than k = 2.00 gives the same coverage probability, k = 1.86.",
      "Eine Verteilung mit Grenzen hat keine Ausläufer: Ein kleinerer Faktor als k = 2,00 ergibt dieselbe Überdeckungswahrscheinlichkeit, k = 1,86.",
    ],
    [
      { kind: "coefficientsVanish" },
      "The sensitivity coefficients vanish at the estimates, but the model varies around them.",
      "Die Empfindlichkeitskoeffizienten verschwinden an den Schätzwerten, obwohl sich das Modell in deren Umgebung ändert.",
    ],
    [
      { kind: "curveShifts" },
      "The curvature shifts the whole interval to one side.",
      "Die Krümmung verschiebt das ganze Intervall nach einer Seite.",
    ],
    [
      { kind: "productsWiden" },
      "Products of deviations, which the first order neglects, widen the result.",
      "Produkte von Abweichungen, die die erste Ordnung vernachlässigt, verbreitern das Ergebnis.",
    ],
  ],
  recommendation: [
    [
      { kind: "nothingVaries" },
      "There is no uncertainty to report. If an input is not known exactly, state its standard uncertainty or its limits.",
      "Es ist keine Unsicherheit anzugeben. Ist eine Eingangsgröße nicht genau bekannt, so sind ihre Standardunsicherheit oder ihre Grenzen anzugeben.",
    ],
    [
      { kind: "drawMore" },
      "Draw more trials, or as many as an adaptive run needs, until they decide the verdict; or report the Monte Carlo interval, which holds either way.",
      "Mehr Versuche ziehen, oder adaptiv so viele wie nötig, bis sie das Urteil entscheiden; oder das Monte-Carlo-Intervall angeben, das in beiden Fällen gilt.",
    ],
    [
      { kind: "stateDeviation" },
      "State the quantity as its deviation from a nominal value, so that rounding of double-precision numbers is small beside δ, and run the study again.",
      "Die Größe als Abweichung von einem Nennwert angeben, damit die Rundung auf Zahlen doppelter Genauigkeit klein gegen δ ist, und die Auswertung wiederholen.",
    ],
    [
      { kind: "stateDoubtfulLimits", inputs: [{ symbol: "δt_ax", degreesOfFreedom: 8 }], factor: 1.959964 },
      "The degrees of freedom of δt_ax (ν = 8) stand for the reliability of stated limits (JCGM 100, G.4.2), which the Monte Carlo of these limits leaves out. Compare the budget with infinite degrees of freedom (k = 1.96), or state a curvilinear trapezoid, whose limits are themselves uncertain (JCGM 101, 6.4.3).",
      "Die Freiheitsgrade von δt_ax (ν = 8) stehen für die Zuverlässigkeit angegebener Grenzen (JCGM 100, G.4.2), die in den Versuchen mit diesen Grenzen nicht vorkommt. Das Budget mit unendlich vielen Freiheitsgraden vergleichen (k = 1,96) oder ein krummliniges Trapez angeben, dessen Grenzen selbst unsicher sind (JCGM 101, 6.4.3).",
    ],
    [
      {
        kind: "doubtfulSample",
        inputs: [
          { symbol: "R_X", degreesOfFreedom: 9 },
          { symbol: "t_S", degreesOfFreedom: 4 },
        ],
        factor: 1.959964,
      },
      "The degrees of freedom of R_X (ν = 9) and t_S (ν = 4) stand for how few values there are, which the Monte Carlo of these very values leaves out. Compare the budget with infinite degrees of freedom (k = 1.96), or state a distribution.",
      "Die Freiheitsgrade von R_X (ν = 9) und t_S (ν = 4) stehen dafür, wie wenige Werte es sind, was in den Versuchen mit eben diesen Werten nicht vorkommt. Das Budget mit unendlich vielen Freiheitsgraden vergleichen (k = 1,96) oder eine Verteilung angeben.",
    ],
    [
      { kind: "knowBetter", input: { symbol: "t_S", degreesOfFreedom: 4 } },
      "Report the Monte Carlo interval, since the uncertainty of t_S (ν = 4) is stated with few degrees of freedom. Only a source that knows it with more of them lets the linear budget hold.",
      "Das Monte-Carlo-Intervall angeben, weil die Unsicherheit von t_S (ν = 4) mit wenigen Freiheitsgraden angegeben ist. Nur eine Quelle, die sie mit mehr Freiheitsgraden kennt, lässt das lineare Budget gelten.",
    ],
    [
      { kind: "keep", factor: 2 },
      "Keep the linear budget with k = 2.00.",
      "Das lineare Budget mit k = 2,00 beibehalten.",
    ],
    [
      { kind: "gatherReadings", input: { symbol: "R_X", degreesOfFreedom: 2 } },
      "Gather more readings of R_X (now ν = 2). Until then report the Monte Carlo interval, since the linear budget does not fully account for the uncertain spread of such a small sample.",
      "Mehr Anzeigen von R_X aufnehmen (jetzt ν = 2). Bis dahin das Monte-Carlo-Intervall angeben, da das lineare Budget die unsichere Streuung einer so kleinen Stichprobe nicht ganz berücksichtigt.",
    ],
    [
      { kind: "gatherReadings", input: null },
      "Gather more readings. Until then report the Monte Carlo interval, since the linear budget does not fully account for the uncertain spread of such a small sample.",
      "Mehr Anzeigen aufnehmen. Bis dahin das Monte-Carlo-Intervall angeben, da das lineare Budget die unsichere Streuung einer so kleinen Stichprobe nicht ganz berücksichtigt.",
    ],
    [
      { kind: "keepWithFactor", factor: 1.75, linearFactor: 2 },
      "Keep the linear budget with k = 1.75 in place of 2.00: the result is symmetric, and this factor gives the required coverage probability.",
      "Das lineare Budget mit k = 1,75 statt 2,00 beibehalten: Das Ergebnis ist symmetrisch, und dieser Faktor ergibt die verlangte Überdeckungswahrscheinlichkeit.",
    ],
    [
      { kind: "addSecondOrder", symbols: ["X_2", "X_1"] },
      "Add the second-order terms of X_2 and X_1 to the budget, which is then validated, or report the Monte Carlo interval.",
      "Das Budget um die Glieder zweiter Ordnung von X_2 und X_1 ergänzen, womit es validiert ist, oder das Monte-Carlo-Intervall angeben.",
    ],
    [
      { kind: "reportMonteCarlo", because: "curvature" },
      "Report the Monte Carlo interval in place of the linear one: no factor k compensates for the curvature of the model.",
      "Das Monte-Carlo-Intervall anstelle des linearen angeben: Kein Faktor k gleicht die Krümmung des Modells aus.",
    ],
    [
      { kind: "reportMonteCarlo", because: "asymmetry" },
      "Report the Monte Carlo interval in place of the linear one: the result is not symmetric about the estimate.",
      "Das Monte-Carlo-Intervall anstelle des linearen angeben: Das Ergebnis ist nicht symmetrisch zum Schätzwert.",
    ],
  ],
  linearised: [
    [
      { kind: "factor", symbol: "e", factor: 1.837, linearFactor: 2, probability: 0.9545 },
      "With the stated distributions in place of a normal, the linearised model needs k = 1.84 for e ± k·u to hold 95.45 % (by convolution, without trials); the budget takes k = 2.00.",
      "Mit den angegebenen Verteilungen anstelle einer Normalverteilung braucht das linearisierte Modell k = 1,84, damit e ± k·u zu 95,45 % überdeckt (durch Faltung, ohne Versuche); das Budget nimmt k = 2,00.",
    ],
    [
      { kind: "noFactor", symbol: "e" },
      "The linear budget has no uncertainty of e that a factor k could multiply.",
      "Das lineare Budget hat keine Unsicherheit von e, die ein Faktor k vervielfachen könnte.",
    ],
    [
      { kind: "decisive", inputs: ["δt_ax"], factor: 1.93 },
      "The distribution of δt_ax matters most to this k: were it normal with the same standard uncertainty, k would be 1.93.",
      "Für dieses k zählt die Verteilung von δt_ax am meisten: Wäre sie normal mit derselben Standardunsicherheit, so wäre k = 1,93.",
    ],
    [
      { kind: "nothingVaries" },
      "In the linearised model nothing varies, so it has no distribution.",
      "Im linearisierten Modell variiert nichts; es hat keine Verteilung.",
    ],
    [
      { kind: "noStandardDeviation", inputs: ["R_X"] },
      "The distribution of the linearised model is not given: R_X has no standard deviation (a t with ν ≤ 2).",
      "Die Verteilung des linearisierten Modells wird nicht angegeben: R_X hat keine Standardabweichung (t-Verteilung mit ν ≤ 2).",
    ],
    [
      { kind: "noStandardDeviation", inputs: ["R_X", "R_S"] },
      "The distribution of the linearised model is not given: R_X and R_S have no standard deviation (a t with ν ≤ 2).",
      "Die Verteilung des linearisierten Modells wird nicht angegeben: R_X und R_S haben keine Standardabweichung (t-Verteilung mit ν ≤ 2).",
    ],
    [
      { kind: "copula", inputs: ["X_1", "X_2"] },
      "The distribution of the linearised model is not given: X_1 and X_2 depend on one another and are not jointly normal or t, so only trials give the distribution of their sum.",
      "Die Verteilung des linearisierten Modells wird nicht angegeben: X_1 und X_2 hängen voneinander ab und sind nicht gemeinsam normal- oder t-verteilt; die Verteilung ihrer Summe geben nur Versuche.",
    ],
    [
      { kind: "accuracy" },
      "The distribution of the linearised model is not given: its endpoints cannot be computed to δ/1000, since the coverage probability is too near 1 or the tails are too heavy.",
      "Die Verteilung des linearisierten Modells wird nicht angegeben: Ihre Endpunkte lassen sich nicht auf δ/1000 berechnen, weil die Überdeckungswahrscheinlichkeit zu nahe an 1 liegt oder die Ausläufer zu schwer sind.",
    ],
  ],
  conformity: [
    [
      decision,
      "By guarded acceptance with a guard band of 0.016 °C inside each tolerance limit, e = −0.041 °C is accepted. The requirement is from −0.2224 to 0.2224 °C.",
      "Nach der Regel der Annahme mit Sicherheitsabstand (0,016 °C innerhalb jeder Toleranzgrenze) wird e = −0,041 °C angenommen. Gefordert ist −0,2224 bis 0,2224 °C.",
    ],
    [
      {
        ...decision,
        rule: "simple acceptance",
        guardBand: null,
        decision: "rejected",
        tolerance: { lower: null, upper: 0.1, basis: "order 7" },
      },
      "By simple acceptance, e = −0.041 °C is rejected. The requirement is at most 0.1 °C (order 7).",
      "Nach der Regel der einfachen Annahme wird e = −0,041 °C zurückgewiesen. Gefordert ist höchstens 0,1 °C (order 7).",
    ],
    [
      {
        ...decision,
        rule: "guarded rejection",
        guardBand: { lower: kelvin(0.02, 3), upper: kelvin(0, 3), at: "lower", side: "outside" },
        tolerance: { lower: 0.1 + 0.2, upper: null, basis: null },
      },
      "By guarded rejection with a guard band of 0.020 °C outside the tolerance limit, e = −0.041 °C is accepted. The requirement is at least 0.3 °C.",
      "Nach der Regel der Zurückweisung mit Sicherheitsabstand (0,020 °C außerhalb der Toleranzgrenze) wird e = −0,041 °C angenommen. Gefordert ist mindestens 0,3 °C.",
    ],
    [
      {
        ...decision,
        guardBand: { lower: kelvin(0.016, 3), upper: kelvin(0.018, 3), at: "apart", side: "inside" },
      },
      "By guarded acceptance with guard bands of 0.016 °C inside the lower and 0.018 °C inside the upper tolerance limit, e = −0.041 °C is accepted. The requirement is from −0.2224 to 0.2224 °C.",
      "Nach der Regel der Annahme mit Sicherheitsabstand (0,016 °C innerhalb der unteren, 0,018 °C innerhalb der oberen Toleranzgrenze) wird e = −0,041 °C angenommen. Gefordert ist −0,2224 bis 0,2224 °C.",
    ],
    [
      { kind: "withinScatter", linear: "accepted" },
      "The trials do not decide this: the result lies within their scatter of an acceptance limit, so another seed may decide otherwise. More trials are needed; by the linear budget the item is accepted.",
      "Die Versuche entscheiden das nicht: Das Ergebnis liegt innerhalb ihrer Streuung um eine Annahmegrenze, sodass ein anderer Startwert anders entscheiden kann. Es braucht mehr Versuche; nach dem linearen Budget wird das Stück angenommen.",
    ],
    [
      { kind: "posterior", conforming: chance(0.975), bearer: "producer", risk: chance(0.975) },
      "With the prior knowledge of the items, the probability of conformity is 97.50 % and the producer's risk of this decision is 97.50 % (JCGM 106, 7.2).",
      "Mit dem, was vorher über die Stücke bekannt war, beträgt die Konformitätswahrscheinlichkeit 97,50 % und das Lieferantenrisiko dieser Entscheidung 97,50 % (JCGM 106, 7.2).",
    ],
    [
      {
        kind: "risk",
        alone: true,
        monteCarlo: { value: 0.5, rest: 0.5 },
        linear: { value: 0.501, rest: 0.499 },
        bearer: "producer",
        risk: chance(0.5),
      },
      "From the measurement alone, the probability of conformity is 50.00 % by Monte Carlo and 50.10 % by the linear budget; the producer's risk of this decision is 50.00 %.",
      "Aus der Messung allein beträgt die Konformitätswahrscheinlichkeit 50,00 % nach Monte Carlo und 50,10 % nach dem linearen Budget; das Lieferantenrisiko dieser Entscheidung beträgt 50,00 %.",
    ],
    [
      { kind: "nothingAcceptable" },
      "The guard bands leave no value that could be accepted.",
      "Die Sicherheitsabstände lassen keinen Wert übrig, der angenommen werden könnte.",
    ],
    [
      {
        kind: "risk",
        alone: false,
        monteCarlo: { value: 0.981, rest: 0.019 },
        linear: { value: 1, rest: 1e-9 },
        bearer: "consumer",
        risk: chance(0.019),
      },
      "The probability of conformity is 98.10 % by Monte Carlo and more than 99.9999 % by the linear budget; the consumer's risk of this decision is 1.90 %.",
      "Die Konformitätswahrscheinlichkeit beträgt 98,10 % nach Monte Carlo und mehr als 99,9999 % nach dem linearen Budget; das Abnehmerrisiko dieser Entscheidung beträgt 1,90 %.",
    ],
    [
      { kind: "methodsDisagree", linear: "rejected" },
      "The methods disagree: by the linear budget the item would be rejected.",
      "Die Verfahren entscheiden verschieden: Nach dem linearen Budget würde das Stück zurückgewiesen.",
    ],
    [
      { kind: "beforeMeasurement", conforming: chance(0.95), consumer: chance(0.012), producer: chance(0.031) },
      "A share of 95.00 % of all items conforms; the next item is accepted wrongly with probability 1.20 % and rejected wrongly with probability 3.10 %.",
      "Von allen Stücken sind 95,00 % konform; das nächste Stück wird mit der Wahrscheinlichkeit 1,20 % zu Unrecht angenommen und mit 3,10 % zu Unrecht zurückgewiesen.",
    ],
  ],
  sensitivity: [
    [
      { kind: "noVariance", symbol: "y", factors: ["R_X"] },
      "The shares of the variance of y do not exist: R_X has a distribution without a standard deviation (ν ≤ 2).",
      "Anteile an der Varianz von y existieren nicht: R_X hat eine Verteilung ohne Standardabweichung (ν ≤ 2).",
    ],
    [
      { kind: "noVariance", symbol: "y", factors: ["R_X", "V + I"] },
      "The shares of the variance of y do not exist: R_X and V + I have distributions without a standard deviation (ν ≤ 2).",
      "Anteile an der Varianz von y existieren nicht: R_X und V + I haben Verteilungen ohne Standardabweichung (ν ≤ 2).",
    ],
    [
      { kind: "doesNotVary", symbol: "y" },
      "y does not vary, so it has no variance to divide.",
      "y ändert sich nicht und hat daher keine Varianz, die aufzuteilen wäre.",
    ],
    [
      { kind: "alone", symbol: "δm", factors: [] },
      "No input alone explains a part of the variance of δm.",
      "Keine Eingangsgröße erklärt für sich allein einen Teil der Varianz von δm.",
    ],
    [
      {
        kind: "alone",
        symbol: "δm",
        factors: [
          { factor: "m_Rc", share: 0.44 },
          { factor: "δm_Rc", share: 0.071 },
        ],
      },
      "Of the variance of δm, m_Rc alone explains 44 % and δm_Rc 7.1 %.",
      "Von der Varianz von δm erklärt m_Rc allein 44 % und δm_Rc 7,1 %.",
    ],
    [
      { kind: "together", share: 0.48, factors: ["a", "ρ_W"] },
      "48 % arises only from inputs acting together, above all a and ρ_W.",
      "48 % entstehen nur im Zusammenwirken von Eingangsgrößen, vor allem von a und ρ_W.",
    ],
    [
      { kind: "together", share: 0.021, factors: [] },
      "2.1 % arises only from inputs acting together.",
      "2,1 % entstehen nur im Zusammenwirken von Eingangsgrößen.",
    ],
    [
      { kind: "notTogether" },
      "No part from inputs acting together is seen.",
      "Ein Anteil aus dem Zusammenwirken von Eingangsgrößen ist nicht zu erkennen.",
    ],
    [
      { kind: "budgetMisjudges", factors: [{ factor: "a", share: 0, total: 0.49 }] },
      "The linear budget misjudges this: it assigns 0 % to a, whose total index is 49 %.",
      "Das lineare Budget schätzt das falsch ein: es schreibt a 0 % zu, der Gesamtindex beträgt aber 49 %.",
    ],
  ],
  remarks: [
    [
      { kind: "noFourthMoment", symbols: ["R_X"] },
      "The distribution of R_X has no fourth moment (ν ≤ 4), so the Monte Carlo u(y) has no standard error: it settles slowly, mostly from below, and the adaptive procedure does not wait for it. The endpoints are not affected.",
      "Die Verteilung von R_X hat kein viertes Moment (ν ≤ 4); das u(y) der Monte-Carlo-Methode hat daher keine eigene Standardabweichung: Es wird langsam stabil, meist von unten, und das adaptive Verfahren wartet nicht darauf. Die Endpunkte sind davon nicht betroffen.",
    ],
    [
      { kind: "noFourthMoment", symbols: ["R_X", "t_S"] },
      "The distributions of R_X and t_S have no fourth moment (ν ≤ 4), so the Monte Carlo u(y) has no standard error: it settles slowly, mostly from below, and the adaptive procedure does not wait for it. The endpoints are not affected.",
      "Die Verteilungen von R_X und t_S haben kein viertes Moment (ν ≤ 4); das u(y) der Monte-Carlo-Methode hat daher keine eigene Standardabweichung: Es wird langsam stabil, meist von unten, und das adaptive Verfahren wartet nicht darauf. Die Endpunkte sind davon nicht betroffen.",
    ],
    [
      { kind: "heavyTail", symbol: "y", index: 1.04, mean: false },
      "A tail of y falls off so slowly (with a power of about 1) that neither its mean nor u(y) settles, as for a distribution that has none: their Monte Carlo figures depend on a few trials and have no standard error. The endpoints exist; state the coverage interval.",
      "Ein Ausläufer von y fällt so langsam ab (etwa mit der Potenz 1), dass weder der Mittelwert noch u(y) stabil wird, wie bei einer Verteilung, die keine hat: Die Monte-Carlo-Werte hängen von wenigen Versuchen ab und haben keine eigene Standardabweichung. Die Endpunkte existieren; anzugeben ist das Überdeckungsintervall.",
    ],
    [
      { kind: "heavyTail", symbol: "y", index: 1.6, mean: true },
      "A tail of y falls off so slowly (with a power of about 1.6) that u(y) does not settle, as for a distribution that has none: their Monte Carlo figures depend on a few trials and have no standard error. The endpoints exist; state the coverage interval.",
      "Ein Ausläufer von y fällt so langsam ab (etwa mit der Potenz 1,6), dass u(y) stabil wird, wie bei einer Verteilung, die keines hat: Die Monte-Carlo-Werte hängen von wenigen Versuchen ab und haben keine eigene Standardabweichung. Die Endpunkte existieren; anzugeben ist das Überdeckungsintervall.",
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
  ],
};

describe.each(Object.keys(TOPICS) as (keyof Facts)[])("%s", (topic) => {
  const rows = TOPICS[topic] as readonly Row<{ readonly kind: string }>[];
  const table = (messages: typeof en) => messages[topic] as MessageTable<{ readonly kind: string }>;

  test("every message is in the table of this test", () => {
    expect(new Set(rows.map(([{ kind }]) => kind))).toEqual(new Set(Object.keys(en[topic])));
    expect(Object.keys(de[topic]).toSorted()).toEqual(Object.keys(en[topic]).toSorted());
  });

  test.each(rows.map(([fact, english, german]) => ({ kind: fact.kind, fact, english, german })))("$kind", (row) => {
    const { fact, english, german } = row;
    expect(sayOne(table(en), fact)).toBe(english);
    expect(sayOne(table(de), fact)).toBe(german);
    expect(numbersIn(german)).toEqual(numbersIn(english));
  });
});
