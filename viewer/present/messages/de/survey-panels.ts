import type { Messages } from "../messages.ts";

/** German words: what a survey's pictures and sections say, in page and terminal. */
export const surveyPanelWords: Pick<Messages, "surveyPanels"> = {
  surveyPanels: {
    all: "Vermessungen von Bädern",
    stayed:
      "{thermometer} stand {time} bei {position}. Von {count} Fenstern zu {window} hat das schlechteste eine halbe Spanne von {halfRange}: das ist die Stabilität des Bades.",
    logsNote:
      "Schraffiert: das schlechteste Fenster, von seiner kleinsten bis zu seiner größten Anzeige. Unter jeder Aufzeichnung: die Position des Thermometers; zwischen den Rahmen wurde es umgesetzt oder war noch nicht eingelaufen, und was es dabei anzeigte, ist weggelassen. Eine Zahl ist die des Schrittes, wenn der Name der Position keinen Platz hat.",
    averagingNote:
      "Wie sehr sich Mittelwerte von {thermometer} von einer Mittelungszeit zur nächsten unterscheiden. Eingekreist: am wenigsten. Gepunktet: unabhängige Anzeigen, die mit eins durch die Wurzel ihrer Anzahl fallen.",
    zoneNote:
      "Differenzen zu {reference}, in mK: ● wärmer, ○ kälter, so groß wie die Differenz; das Quadrat mit Kreuz ist die Referenzposition. Umrandet: die gewählte Zone; gepunktet: drei Viertel, die Hälfte und ein Viertel davon.",
    unresolved: "Nicht mit {reference} verglichen und nicht gezeichnet: {positions}.",
    axial: "Senkrecht: ± {halfWidth}",
    radial: "Waagrecht: ± {halfWidth}",
    axialAbout: "Senkrecht: ± {halfWidth} um {estimate}",
    radialAbout: "Waagrecht: ± {halfWidth} um {estimate}",
    over: " über {zone} ({lowest} bis {highest}); {because}.",
    swapped: "{position} weniger {reference}: {difference}, u = {u}, durch Vertauschen von {pair}",
    moved: "{position} weniger {reference}: {difference}, u = {u}, durch Umsetzen eines von {pair}",
    swapsIntro:
      "Das Vertauschen eines Paares kehrt das Vorzeichen seines eigenen Versatzes um: die halbe Differenz der beiden Anordnungen ist die des Bades, ihre halbe Summe die der Thermometer. Der Versatz muss überall gleich herauskommen.",
    comparisonsName: "Differenz zu {reference} aus jedem Vergleich, in mK: {list}.",
    comparisonsAxis: "Differenz zu {reference} / mK",
    offset: "{from}: {pair} ist {offset}, u = {u}",
    offsetsName: "Versatz {pair} aus jeder Bestimmung, in mK: {list}.",
    mean: "Mittelwert",
    marks:
      "● durch Vertauschen, □ durch Umsetzen eines oder mit beiden an einer Stelle; Balken: ± 2 {u}, wenn das breiter ist als das Zeichen.",
    logName:
      "Aufzeichnungen von {thermometers} über der Zeit. Das schlechteste Fenster von {thermometer} reicht von {from} bis {to}, mit einer halben Spanne von {halfRange}.",
    readLogs: "Die Aufzeichnungen Augenblick für Augenblick ablesen",
    inWorst: "; im schlechtesten Fenster",
    worstWindow: "schlechtestes Fenster: ± {halfRange}",
    moving: " (umgesetzt oder noch nicht eingelaufen)",
    standingAt: " bei {position}",
    noReading: "keine Anzeige",
    hours: "Stunden {since}",
    minutes: "Minuten {since}",
    sinceBeginning: "seit Beginn der Aufzeichnung",
    since: "seit {moment}",
    allanName:
      "Allan-Abweichung gegen die Mittelungszeit: {first} von Anzeige zu Anzeige, am kleinsten bei {time} mit {least}.",
    allanAxis: "Allan-Abweichung / mK",
    timeAxis: "Mittelungszeit",
    readAllan: "Die Allan-Abweichung Zeit für Zeit ablesen",
    allanPoint:
      "Mittelwerte über {time} ({count} Anzeigen) unterscheiden sich um {deviation}, aus {differences} Differenzen",
    allanReading:
      "Mittelwerte über {time} (1 Anzeige) unterscheiden sich um {deviation}, aus {differences} Differenzen",
    zoneName: "Differenzen zu {reference} über Tiefe und Radius: von {lowest} bis {highest}.",
    zoneNameSides: "Differenzen zu {reference} über Tiefe und Radius, {left} bis {right}: von {lowest} bis {highest}.",
    depthAxis: "Tiefe / mm",
    radiusAxis: "Radius / mm",
    radiusAxisSides: "Radius / mm, {left} als negativ",
    readZone: "Die Positionen eine nach der anderen ablesen",
    readZoneSides: "Die Positionen eine nach der anderen ablesen, {left} bis {right}",
    place: "{position}, Tiefe {depth}, Radius {radius}",
    isReference: "{place}: die Referenzposition, zu der alle Differenzen gelten",
    isDifference: "{place}: {difference}, u = {u}",
    readOne: "Einzeln ablesen: {title}",
    oneHolds: "Die Prüfung, die erfüllt ist",
    othersHold: "Die {count} Prüfungen, die erfüllt sind",
    allHold: "Alle {count} Prüfungen der Vermessung sind erfüllt.",
    oneFails: "1 der {count} Prüfungen der Vermessung ist nicht erfüllt:",
    someFail: "{failed} der {count} Prüfungen der Vermessung sind nicht erfüllt:",
    fails: "nicht erfüllt: ",
    noBath:
      "Die Beschreibung nennt kein Bad, also konnte nichts beurteilt werden. Maßgebend sind das Sicherheitsdatenblatt der Flüssigkeit, örtliche Vorschriften und befähigte Personen.",
    notJudged: "Nicht beurteilt: {what}.",
    warning: "Warnung:",
    warningAt: "Warnung ({place}):",
    caution: "{warning}; {because}.",
    description: "Beschreibung",
    log: "Aufzeichnung",
    sampled: "{count} Anzeigen, eine alle {interval}, {from} bis {to}",
    arrangement: "Anordnung",
    calibrationTakes: "Dauer einer Kalibrierung",
    fixed: "das Normal steht an der Referenzposition, ein Prüfling irgendwo in der Zone",
    midpoint: "korrigiert auf die Mitte der Differenzen in der Zone",
    anywhere: "jedes der Thermometer kann irgendwo in der Zone stehen",
    facts: "Aufzeichnung {file} von {thermometers}; Stabilität aus {thermometer} bei {position}.",
  },
};
