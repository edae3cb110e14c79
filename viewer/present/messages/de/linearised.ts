import type { Messages } from "../messages.ts";

/** German words: the linearised model with the stated distributions. */
export const linearisedWords: Pick<Messages, "linearised"> = {
  linearised: {
    intro:
      "Das lineare Budget vereinfacht zweimal: Es nimmt das Modell als linear und eine Normal- oder t-Verteilung anstelle der angegebenen Verteilungen. Das linearisierte Modell mit den angegebenen Verteilungen vereinfacht einmal; seine Verteilung ist eine Faltung und wird ohne Versuche berechnet. Worin sich das Budget und diese Verteilung unterscheiden, kommt von den Verteilungen und ihren Freiheitsgraden; worin sie und die Monte-Carlo-Methode sich unterscheiden, von der Nichtlinearität des Modells und der Streuung der Versuche.",
    caption:
      "Ergebnisse des linearen Budgets, des linearisierten Modells mit den angegebenen Verteilungen und der Monte-Carlo-Methode für {y} ({p}, {kind})",
    linearised: "Linearisiert, angegebene Verteilungen",
    factor: "Erweiterungsfaktor {k}",
    pictureCaption:
      "Dichte von {y}: Versuche (gefüllter Umriss), linearisiertes Modell mit den angegebenen Verteilungen (Linie) und lineares Budget (gestrichelt), mit dem {p}-Intervall von jedem.",
    pictureName:
      "Dichte von {y} dreimal: {p}-Intervall des linearen Budgets {linear}, des linearisierten Modells mit den angegebenen Verteilungen {linearised}, nach Monte Carlo {monteCarlo} {unit}.",
    lane: "linearisiert, angegebene Verteilungen",
    laneLinear: "lineares Budget",
    absent: "Das Protokoll enthält keine linearisierte Verteilung dieser Messgröße.",
    laneMonteCarlo: "Monte Carlo",
  },
};
