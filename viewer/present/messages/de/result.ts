import type { Messages } from "../messages.ts";

/** German words: the result and the comparison of both methods. */
export const resultWords: Pick<Messages, "result" | "toReport" | "validation"> = {
  result: {
    purpose:
      "Messgröße: {quantities}. Ihre Unsicherheit wurde nach zwei Verfahren ermittelt, aus demselben Modell und denselben Kenntnissen über die Eingangsgrößen: nach dem linearen Budget des GUM (JCGM\u00a0100:2008) und durch Fortpflanzung der Verteilungen mit einer Monte-Carlo-Methode (JCGM\u00a0101:2008). Dieser Bericht sagt, ob das zweite Verfahren das erste validiert (JCGM\u00a0101:2008, Abschnitt\u00a08).",
    purposes:
      "Messgrößen: {quantities}. Ihre Unsicherheiten wurden nach zwei Verfahren ermittelt, aus demselben Modell und denselben Kenntnissen über die Eingangsgrößen: nach dem linearen Budget des GUM (JCGM\u00a0100:2008) und durch Fortpflanzung der Verteilungen mit einer Monte-Carlo-Methode (JCGM\u00a0101:2008). Dieser Bericht sagt, ob das zweite Verfahren das erste validiert (JCGM\u00a0101:2008, Abschnitt\u00a08).",
    records:
      "Er ist eine technische Aufzeichnung der Ermittlung (ISO/IEC\u00a017025:2017, 7.5 und 7.6) und kein Kalibrierschein.",
    linear:
      "{result}; die Zahl nach ± ist die erweiterte Messunsicherheit {U} = {k} {u} mit {uSymbol} = {u2} und dem Erweiterungsfaktor {kSymbol} = {kValue}{freedom}, für eine Überdeckungswahrscheinlichkeit von {p}.",
    freedom: " aus der t-Verteilung mit {nu} effektiven Freiheitsgraden",
    fixedFactor: ", der vorab festgelegt ist",
    monteCarlo:
      "Das {p}-Überdeckungsintervall von {y} ist {interval} ({kind}), mit dem Schätzwert {estimate} und der Standardunsicherheit {u}, aus {trials} Monte-Carlo-Versuchen.",
    monteCarloBare:
      "Das {p}-Überdeckungsintervall von {y} ist {interval} ({kind}), aus {trials} Monte-Carlo-Versuchen. Die Verteilung hat keinen Wert für: {missing}.",
    mean: "Erwartungswert",
    deviation: "Standardabweichung",
    meanAndDeviation: "Erwartungswert und Standardabweichung",
    instead: "Das lineare Budget, das {result} mit {kSymbol} = {kValue} angäbe, ist nicht validiert.",
    unclear:
      "Ob das lineare Budget, das {result} mit {kSymbol} = {kValue} angäbe, validiert ist, entscheiden die Versuche nicht.",
    stamp: "Lineares Budget: {verdict}",
    rounding: "Gerundet nach JCGM\u00a0100:2008, 7.2.6; alle weiteren Werte stehen in den Tabellen unten.",
    symmetric: "wahrscheinlichkeitssymmetrisch",
    shortest: "kürzestes",
    notes: "Bemerkungen der Studie",
  },
  toReport: {
    head: "Auf dem Kalibrierschein",
    linear:
      "{y} = {result}. Die Zahl nach ± ist die erweiterte Messunsicherheit {U} = {k} {u}({y}) mit dem Erweiterungsfaktor {k} = {kValue}; die Überdeckungswahrscheinlichkeit beträgt ungefähr {p}.",
    linearWithFreedom:
      "{y} = {result}. Die Zahl nach ± ist die erweiterte Messunsicherheit {U} = {k} {u}({y}) mit dem Erweiterungsfaktor {k} = {kValue} aus der t-Verteilung mit {nu} effektiven Freiheitsgraden; die Überdeckungswahrscheinlichkeit beträgt ungefähr {p}.",
    fitted:
      "{y} = {result}. Die Zahl nach ± ist die erweiterte Messunsicherheit {U} = {k} {u}({y}). Ihr Erweiterungsfaktor {k} = {kValue} folgt aus der Verteilung des Ergebnisses, ermittelt durch Fortpflanzung der Verteilungen (JCGM 101:2008), für eine Überdeckungswahrscheinlichkeit von {p}.",
    precedent:
      "EA-4/02 gibt in den Beispielen S9 und S10 aus demselben Grund Ergebnisse mit einem anderen Faktor als 2 an.",
    monteCarlo:
      "{y} liegt mit einer Überdeckungswahrscheinlichkeit von {p} im Intervall von {range}, ermittelt durch Fortpflanzung der Verteilungen (JCGM 101:2008){about}.",
    about: "; der Schätzwert ist {estimate}, die Standardunsicherheit {u}",
    open: "Noch kein Ergebnis: zuerst tun, was empfohlen ist.",
    mayStand: "anzugeben",
    withFactor: "mit einem anderen k anzugeben",
    interval: "anzugeben",
    eitherWay: "darf angegeben werden, was weitere Versuche auch zeigen",
    headline: "{y} = {result}  ({k}, p = {p})",
    headlineInterval: "{y} von {range}  (p = {p}, Monte Carlo)",
    headlineOpen: "{y}: noch kein Ergebnis anzugeben",
    fromDistribution: "k = {k} aus der Verteilung des Ergebnisses",
  },
  validation: {
    caption: "Vergleich der Überdeckungsintervalle von {y} (JCGM\u00a0101:2008, 8.1)",
    digits: "Signifikante Stellen von {u}({y})",
    verdict: "Urteil",
    studied: "wie in der Studie verlangt",
    rule: "Das Budget ist validiert, wenn kein Endpunkt seines Überdeckungsintervalls vom Monte-Carlo-Endpunkt um mehr als die numerische Toleranz {delta} abweicht: {dLow} = |{y} − {U} − {ylow}| und {dHigh} = |{y} + {U} − {yhigh}| sind beide höchstens {delta}.",
    verdictHead: "Urteil",
    pairedHead: "Nach gepaarten Versuchen",
    whyHead: "Warum die Verfahren sich unterscheiden",
    followsHead: "Empfehlung",
    endsCaption:
      "Die Endpunkte beider Intervalle, vergrößert. Schraffiert: bis {delta} vom linearen Endpunkt. Der Balken am Monte-Carlo-Endpunkt zeigt ± 2 Standardfehler.",
    movedBy: "verschoben um",
    endLow: "unterer Endpunkt",
    endHigh: "oberer Endpunkt",
    endName: "{end}: Monte-Carlo-Endpunkt weniger linearer Endpunkt {difference}, Toleranz {tolerance} {unit}",
    linearEnd: "linear",
    monteCarloEnd: "Monte Carlo",
    causesCaption:
      "Was die Endpunkte des Intervalls von {y} vom linearen Budget zu Monte Carlo verschiebt: jeder Balken ist der Shapley-Wert einer Ursache, {source}, und beginnt, wo der Balken darüber endet. Schraffiert: bis {delta} vom linearen Endpunkt (gestrichelt).",
    digitsName:
      "Beide Endpunkte gegen die Toleranz bei einer und bei zwei Stellen: unterer Endpunkt {low}, oberer Endpunkt {high}; {tolerances}{unit}.",
    digitsTolerance: "± {delta} bei {digits}: {value}",
    oneDigit: "einer Stelle",
    twoDigits: "zwei Stellen",
    digitsHead: "Bei einer und bei zwei Stellen",
    digitsCaption:
      "Differenzen der Endpunkte (Marken, mit ± 2 Standardfehlern) gegen {delta} bei einer und bei zwei signifikanten Stellen von {u}({y}).",
    causesName: "Verschiebung der Endpunkte nach Ursachen",
    causesTable: "Verschiebung der Endpunkte des Intervalls von {y} nach Ursachen: Shapley-Werte, {source}",
    causesExact: "Form und Freiheitsgrade exakt berechnet, Krümmung aus {trials} gepaarten Versuchen",
    causesDrawn: "aus {trials} Versuchen",
    cause: "Ursache",
    lowAlone: "Unterer, allein",
    highAlone: "Oberer, allein",
    shareOf: "Anteil",
    aboveAll: "vor allem durch",
    curvature: "Krümmung des Modells",
    shape: "Form der Eingangsgrößen",
    degreesOfFreedom: "wenige Freiheitsgrade",
    remainder: "verbleibende Streuung",
    difference: "Differenz insgesamt",
    interplay: "Zusammenwirken der Ursachen, auf die Zeilen oben verteilt",
  },
};
