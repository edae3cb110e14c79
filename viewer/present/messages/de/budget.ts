import type { Messages } from "../messages.ts";

/** German words: the linear budget, with its second-order terms. */
export const budgetWords: Pick<Messages, "budget" | "secondOrder"> = {
  budget: {
    caption:
      "Lineares Budget von {y} (JCGM\u00a0100:2008, Abschnitt\u00a05, Anhänge G und H), größter Beitrag zuerst; {uy} und die Beiträge in {unit}",
    quantity: "Größe",
    estimate: "Schätzwert {x}",
    uncertainty: "{u}({x})",
    unit: "Einheit",
    evaluation: "Typ",
    freedom: "{nu}",
    sensitivityUnit: "Einh. von {c}",
    contribution: "{c} {u}({x})",
    share: "Anteil an {u}²({y})",
    bar: "Anteil als Balken",
    pictureName: "Beiträge zu {u}({y}), der größte zuerst: {list}.",
    pictureBelow: "Beitrag |{c} {u}({x})|{unit}",
    pictureAbove: "kumulierter Anteil an {u}²({y}) / %",
    pictureCaption:
      "Beiträge zu {u}({y}), der größte zuerst, und als Linie, auf der Skala darüber, der Anteil an {u}²({y}), den jeder mit den vorangehenden erreicht.",
    barsCaption:
      "Beiträge zu {u}({y}), der größte zuerst, und der Anteil an {u}²({y}), den jeder mit denen davor erreicht",
    pictureCorrelated:
      "Beiträge zu {u}({y}), der größte zuerst. Ihre Anteile ergeben nicht {u}²({y}), da Eingangsgrößen korreliert sind.",
    pictureOthers: "{count} weitere",
    correlated:
      "Korrelierte Glieder von {uy}: 2\u00a0{ci}\u00a0{cj}\u00a0{u}({xi})\u00a0{u}({xj})\u00a0{r} (JCGM\u00a0100:2008, 5.2.2)",
    pair: "Größen",
    coefficient: "{r}",
    term: "Glied von {u}²({y})",
    expanded:
      "Erweiterte Messunsicherheit {U} = {k} {u}({y}) = {kValue} × {u2} = {U2}; Überdeckungsintervall {interval} für {p}.",
    custom:
      "Der Erweiterungsfaktor folgt aus der verlangten Überdeckungswahrscheinlichkeit und {nu} (JCGM\u00a0100:2008, G.4).",
    fixed:
      "Der Erweiterungsfaktor ist mit {kValue} festgelegt; für eine Normalverteilung ist das eine Überdeckungswahrscheinlichkeit von {p}.",
  },
  secondOrder: {
    intro:
      "Mit den nächsten Gliedern der Taylor-Reihe (JCGM\u00a0100:2008, 5.1.2, Anmerkung), die für unabhängige und annähernd normalverteilte Eingangsgrößen gelten, wird aus dem Budget:",
    none: "Die nächsten Glieder der Taylor-Reihe (JCGM\u00a0100:2008, 5.1.2, Anmerkung) tragen bei der Genauigkeit dieser Werte nichts bei: das Modell ist um die Schätzwerte linear.",
    absent:
      "Es sind keine Glieder zweiter Ordnung angegeben: sie gelten für unabhängige Eingangsgrößen und für Modelle, die sich innerhalb einer Standardunsicherheit wenig krümmen.",
    caption: "Das Budget von {y} mit Gliedern zweiter Ordnung",
    estimate: "Schätzwert {y}, mit der Verschiebung {bias}",
    first: "Erste Ordnung",
    second: "Mit Gliedern zweiter Ordnung",
    tolerance: "Toleranz {delta}",
    terms: "Größte Glieder von {u}²({y}): {terms}.",
    term: "{pair} ({share} von {u}²({y}))",
    byItself: "{quantity} mit sich selbst",
  },
};
