import type { Messages } from "../messages.ts";

/** German words: remarks, cautions and where the figures come from. */
export const provenanceWords: Pick<Messages, "remarks" | "cautions" | "provenance"> = {
  remarks: {
    none: "Es ist nichts anzumerken.",
  },
  cautions: {
    none: "Das Modell nennt keine Gefahr. Die Regeln des Laboratoriums und die Sicherheitsdatenblätter dessen, was es verwendet, gelten dennoch.",
    intro:
      "Was jemanden bei dieser Messung verletzen kann. Die Liste gehört zum Modell und ist nicht vollständig; örtliche Vorschriften und fachkundige Personen entscheiden.",
  },
  provenance: {
    caption: "Woher die Werte kommen",
    model: "Modell",
    modelDigest: "Prüfsumme des Modellquelltextes",
    engine: "Programm",
    commit: "Stand {commit}",
    engineDigest: "Prüfsumme des Programmquelltextes",
    generator: "Zufallszahlengenerator",
    seed: "Startwert",
    trials: "Versuche",
    trialsText: "{count} in Folgen zu {batch}; {stop}",
    fixed: "die verlangte Anzahl",
    settled: "beendet, als alle Werte auf δ/5 stabil waren",
    limit: "beendet an der Obergrenze, bevor alle Werte stabil waren",
    bits: "Wiederholbar bis aufs Bit",
    bitsAny: "auf jeder Maschine und mit jeder Anzahl von Threads",
    bitsOne: "nur mit derselben Version der JavaScript-Umgebung",
    started: "Lauf",
    startedText: "{date}, {seconds} s, Threads: {workers}",
    runtime: "Umgebung",
    recordDigest: "Prüfsumme des Protokolls",
    resultsDigest: "Prüfsumme seiner Ergebnisse",
    studyDigest: "Prüfsumme seiner Studie",
    digestNote: "SHA-256 über kanonisches JSON (RFC 8785)",
    unsealed: "für diesen Bericht berechnet; das Protokoll trägt kein Siegel",
    unbuilt: "nicht bekannt: das Programm lief ungebaut",
    again:
      "Um das Protokoll zu prüfen und die Ermittlung bis aufs Bit zu wiederholen, mit der Protokolldatei und installiertem Trialband {version}:",
    againNote:
      "Das Protokoll enthält die ganze Studie: jede Angabe, den Startwert und die Regel, nach der die Versuche endeten.",
    ownModel:
      "Das Protokoll enthält den Quelltext eines Modells des Laboratoriums, also ein Programm: es ist zu lesen, bevor es ausgeführt wird.",
    validation:
      "Das Programm wird auf der vorhandenen Installation an veröffentlichten Beispielen geprüft (ISO/IEC\u00a017025:2017, 7.11.2) durch {command}.",
    signatures: "Für die Akten",
    evaluatedBy: "Ermittelt von",
    reviewedBy: "Geprüft von",
    dateAndSignature: "Datum und Unterschrift",
  },
};
