import { everyMessage, kelvin } from "./every-message.ts";

const compared = {
  symbol: "e",
  significantDigits: 1,
  difference: kelvin(0.0021, 4),
  tolerance: kelvin(0.005, 4),
} as const;

everyMessage("verdict", [
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
    "The trials do not decide whether the linear budget is validated to 1 significant digit of u(e): the endpoints of its interval differ from the Monte Carlo endpoints by at most 0.0021 °C, δ = 0.0050 °C, and the scatter of the Monte Carlo endpoint (standard error 0.0004 °C) allows either.",
    "Die Versuche entscheiden nicht, ob das lineare Budget auf 1 signifikante Stelle von u(e) validiert ist: Die Endpunkte seines Überdeckungsintervalls weichen von denen der Monte-Carlo-Methode um höchstens 0,0021 °C ab, die numerische Toleranz ist δ = 0,0050 °C, und die Streuung des Monte-Carlo-Endpunkts (Standardabweichung 0,0004 °C) lässt beides zu.",
  ],
  [
    { kind: "undecided", ...compared, doubts: ["scatterUnknown", "fewTrials", "rounding"], standardError: null },
    "The trials do not decide whether the linear budget is validated to 1 significant digit of u(e): the endpoints of its interval differ from the Monte Carlo endpoints by at most 0.0021 °C, δ = 0.0050 °C, and the scatter of the Monte Carlo endpoints is not known from so few batches, fewer than 50 trials lie beyond each endpoint and the last bit of the numbers computed with is more than a tenth of δ.",
    "Die Versuche entscheiden nicht, ob das lineare Budget auf 1 signifikante Stelle von u(e) validiert ist: Die Endpunkte seines Überdeckungsintervalls weichen von denen der Monte-Carlo-Methode um höchstens 0,0021 °C ab, die numerische Toleranz ist δ = 0,0050 °C, und die Streuung der Monte-Carlo-Endpunkte ist aus so wenigen Serien nicht bekannt, jenseits jedes Endpunkts liegen weniger als 50 Versuche und das letzte Bit der Zahlen, mit denen gerechnet wird, ist mehr als ein Zehntel von δ.",
  ],
  [
    { kind: "displaced", direction: "higher", width: null },
    "The two intervals are equally wide to within 1 %, but the Monte Carlo interval lies higher at both endpoints.",
    "Die beiden Intervalle sind auf 1 % gleich breit, das Monte-Carlo-Intervall liegt aber an beiden Endpunkten höher.",
  ],
  [
    { kind: "displaced", direction: "lower", width: null },
    "The two intervals are equally wide to within 1 %, but the Monte Carlo interval lies lower at both endpoints.",
    "Die beiden Intervalle sind auf 1 % gleich breit, das Monte-Carlo-Intervall liegt aber an beiden Endpunkten tiefer.",
  ],
  [
    {
      kind: "displaced",
      direction: "higher",
      width: { kind: "tooWide", fraction: 0.054, offCentre: true, factor: 1.9 },
    },
    "The Monte Carlo interval lies higher at both endpoints, and the linear interval is 5.4 % wider than necessary.",
    "Das Monte-Carlo-Intervall liegt an beiden Endpunkten höher, und das lineare Intervall ist um 5,4 % breiter als nötig.",
  ],
  [
    {
      kind: "displaced",
      direction: "lower",
      width: { kind: "tooNarrow", fraction: 0.2, offCentre: true, factor: 2.4 },
    },
    "The Monte Carlo interval lies lower at both endpoints, and the linear interval is 20 % too narrow.",
    "Das Monte-Carlo-Intervall liegt an beiden Endpunkten tiefer, und das lineare Intervall ist um 20 % zu schmal.",
  ],
  [
    { kind: "unplaced", width: { kind: "tooWide", fraction: 0.002, offCentre: false, factor: 1.9 } },
    "Which way its endpoints differ, the trials by themselves do not show.",
    "In welche Richtung seine Endpunkte abweichen, zeigen die Versuche für sich allein nicht.",
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
    { kind: "tooWide", fraction: 0.00012, offCentre: false, factor: 1.856 },
    "The linear interval is 0.012 % wider than necessary.",
    "Das lineare Intervall ist um 0,012 % breiter als nötig.",
  ],
  [
    { kind: "validated", ...compared },
    "The linear budget is validated to 1 significant digit of u(e): the endpoints of its interval differ from the Monte Carlo endpoints by at most 0.0021 °C, within δ = 0.0050 °C.",
    "Das lineare Budget ist auf 1 signifikante Stelle von u(e) validiert: Die Endpunkte seines Überdeckungsintervalls weichen von denen der Monte-Carlo-Methode um höchstens 0,0021 °C ab, was innerhalb der numerischen Toleranz δ = 0,0050 °C liegt.",
  ],
  [
    { kind: "notValidated", ...compared, significantDigits: 2 },
    "The linear budget is not validated to 2 significant digits of u(e): an endpoint of its interval lies 0.0021 °C from the Monte Carlo endpoint, more than δ = 0.0050 °C.",
    "Das lineare Budget ist auf 2 signifikante Stellen von u(e) nicht validiert: Ein Endpunkt seines Überdeckungsintervalls weicht von dem der Monte-Carlo-Methode um 0,0021 °C ab, mehr als die numerische Toleranz δ = 0,0050 °C.",
  ],
  [
    { kind: "tooWide", fraction: 0.054, offCentre: false, factor: 1.856 },
    "The linear interval is 5.4 % wider than necessary.",
    "Das lineare Intervall ist um 5,4 % breiter als nötig.",
  ],
  [
    { kind: "tooNarrow", fraction: 0.47, offCentre: true, factor: 1.856 },
    "The linear interval is 47 % too narrow, and the Monte Carlo interval is not centred on the estimate.",
    "Das lineare Intervall ist um 47 % zu schmal, und das Monte-Carlo-Intervall liegt nicht symmetrisch zum Schätzwert.",
  ],
  [
    { kind: "factorNeeded", factor: 1.856 },
    "A coverage factor k = 1.86 would make it as wide as the Monte Carlo interval.",
    "Mit dem Erweiterungsfaktor k = 1,86 wäre es so breit wie das Monte-Carlo-Intervall.",
  ],
  [
    { kind: "validatedAt", symbol: "e", significantDigits: 1 },
    "To 1 significant digit of u(e) it is validated.",
    "Auf 1 signifikante Stelle von u(e) ist es validiert.",
  ],
  [
    { kind: "firmUnsettled" },
    "The Monte Carlo figures have not stabilised to δ/5, but the verdict does not depend on that.",
    "Die Monte-Carlo-Werte sind noch nicht auf δ/5 stabil; das Urteil hängt davon aber nicht ab.",
  ],
]);
