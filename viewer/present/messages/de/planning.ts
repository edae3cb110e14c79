import type { Messages } from "../messages.ts";

/** Worte eines Plans: wie ein Laboratorium über seinen Bereich eine Unsicherheit erreichen könnte. */
export const planningWords: Pick<Messages, "planning"> = {
  planning: {
    kind: "Plan für eine kleinere Unsicherheit",
    points: "{U} jetzt, gefordert und mit dem Vorschlag, p = {p}, in {unit}",
    at: "{t}{unit}",
    part: "Teil",
    target: "Ziel",
    now: "{U} jetzt",
    predicted: "{U} vorhergesagt",
    confirmed: "{U} aus dem Lauf",
    verdict: "Urteil",
    met: "erreicht",
    missed: "verfehlt",
    undecided: "unentschieden",
    halvings: "Was die Halbierung einer Eingangsgröße bringt: Anteil, um den {U} sinkt",
    symbols: "Wofür die Symbole stehen",
    symbol: "Symbol",
    meaning: "Bedeutung",
    alone: "Jeder Schritt für sich",
    lever: "was geändert wird",
    cost: "Kosten{unit}",
    steps: "Schritte",
    worst: "größtes {U} / Ziel",
    frontier: "Grenzlinie: Nichts Billigeres erreicht so wenig",
    together: "Schritte zusammen",
    nothing: "wie jetzt",
    readings: "{count} Ablesungen",
    window: "{to} min",
    zone: "{to} mm",
    scale: "× {to}",
    proposal: "Vorschlag: {steps} ({cost}). Das größte U beträgt dann nach der Vorhersage {worst} seines Ziels.",
    enough: "Das Ziel ist schon jetzt erreicht: Das größte U beträgt {worst} seines Ziels.",
    unreachable:
      "Keine Verbindung der Schritte erreicht das Ziel an jedem Punkt. Am nächsten kommt {steps} ({cost}): Das größte U beträgt dann nach der Vorhersage {worst} seines Ziels.",
    costOf: "Kosten {cost}{unit}",
    countOf: "{count} Schritte",
    confirmedMet:
      "Durch einen Lauf der vorgeschlagenen Studie mit {trials} Versuchen je Punkt bestätigt: Das Ziel ist an jedem Punkt erreicht. Lauf und Vorhersage weichen höchstens um {difference} voneinander ab.",
    confirmedMissed:
      "Ein Lauf der vorgeschlagenen Studie mit {trials} Versuchen je Punkt verfehlt das Ziel bei {points}. Lauf und Vorhersage weichen höchstens um {difference} voneinander ab.",
    confirmedOpen:
      "Ein Lauf der vorgeschlagenen Studie mit {trials} Versuchen je Punkt lässt offen, ob das Ziel bei {points} erreicht ist: Es liegt dort innerhalb des doppelten Standardfehlers der Angabe. Mehr Versuche entscheiden es. Lauf und Vorhersage weichen höchstens um {difference} voneinander ab.",
    atMargin:
      "Das Ziel liegt innerhalb von {margin} davon, näher, als ein Lauf mit {trials} Versuchen unterscheiden kann: Der Vorschlag kann auf beiden Seiten herauskommen.",
    atMarginAdaptive:
      "Das Ziel liegt innerhalb von {margin} davon, näher, als ein adaptiver Lauf unterscheiden kann: Der Vorschlag kann auf beiden Seiten herauskommen.",
    notConfirmed: "Der Vorschlag ist eine Vorhersage, bis seine Studie gelaufen ist.",
    rule: "U ist das größere von dem des linearen Budgets und dem Abstand des ferneren Endpunkts der Verteilung. Vorhersagen nehmen die exakte Verteilung des linearisierten Modells; der Lauf zieht Versuche des Modells selbst.",
    assumeReadings: "Mehr Ablesungen: Die Standardabweichung einer einzelnen wird so angenommen, wie sie jetzt ist.",
    assumeWindow:
      "Längeres Mittelungsfenster: Schwankungen sinken nach Annahme mit der Wurzel seiner Länge (übliche Praxis). Ob sie es tun, zeigt die Kurve der Vermessung über der Fensterlänge.",
    assumeZone: "Kleinere Zone: Unterschiede zwischen zwei Orten werden als proportional zu ihrem Abstand angenommen.",
    pictureFrontier: "Kleinste Unsicherheit über den Kosten",
    captionFrontier:
      "Was die Schritte kosten und die größte Unsicherheit, die sie erreichen (Ringe: Verbindungen, die nichts Billigeres erreicht), mit dem Ziel (gepunktet).",
    pictureRange: "Erweiterte Messunsicherheit jetzt und mit dem Vorschlag über {quantity}",
    captionRange:
      "Erweiterte Messunsicherheit jetzt (Ringe), mit dem Vorschlag vorhergesagt (Linie), aus dem Lauf (Ringe darauf) und das Ziel (gepunktet).",
    captionPredicted:
      "Erweiterte Messunsicherheit jetzt (Ringe), mit dem Vorschlag vorhergesagt (Linie), und das Ziel (gepunktet).",
    pictureHalvings: "Was die Halbierung einer Eingangsgröße bringt, über {quantity}",
    captionHalvings:
      "Anteil, um den die erweiterte Messunsicherheit sinkt, wenn eine Eingangsgröße halb so unsicher ist.",
    gainAxis: "weniger {U} / %",
    worstAxis: "größtes {U}{unit}",
    shareAxis: "größtes {U} / Ziel / %",
    costAxis: "Kosten{unit}",
    countAxis: "Schritte",
    again: "Wiederholen: {command}",
  },
};
