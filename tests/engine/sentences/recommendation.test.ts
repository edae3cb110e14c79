import { everyMessage } from "./every-message.ts";

everyMessage("recommendation", [
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
]);
