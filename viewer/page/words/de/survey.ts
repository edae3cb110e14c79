import type { LaterWords } from "../words.ts";

/** Surveys, in German. */
export const surveyWords: LaterWords["survey"] = {
  bothAt: "beide bei {where}",
  history: {
    open: "Das Bad über der Zeit: Halbweiten der aufbewahrten Vermessungen",
    source:
      "Jede Fassung nach dem Beginn ihrer Aufzeichnung, oder nach dem Tag, an dem sie gespeichert wurde, wenn die Aufzeichnung ab ihrem Beginn zählt.",
    stability: "Stabilität, Halbweite",
    axial: "senkrechte Differenzen, Halbweite",
    radial: "waagrechte Differenzen, Halbweite",
  },
  distribution: "Verteilung",
  quantity: "Größe",
  draft: "{log}, ein Entwurf",
  noLog: "noch keine Aufzeichnung",
  meanings: {
    stability: "Stabilität über eine Kalibrierung",
    axial: "senkrechte Differenz in der Zone",
    radial: "waagrechte Differenz in der Zone",
  },
  labels: { stability: "Stabilität", axial: "Senkrechte Differenz", radial: "Waagrechte Differenz" },
  inputs: "Eingangsgrößen aus dieser Vermessung",
  estimate: "Schätzwert / mK",
  halfWidth: "Halbweite / mK",
  from: "woher sie kommt",
  noStudy:
    "Es gibt noch keine Studie, in die diese Vermessung gehen könnte. Importieren Sie eine Budgettabelle oder füllen Sie eine aus und starten Sie den Lauf: Dann steht sie hier.",
  chooseInputs: "Wählen Sie für mindestens eine der Größen eine Eingangsgröße.",
  chooseStudy: "Eine Studie wählen",
  thisBath: "{title} (dieses Bad)",
  stays: "Alles andere in der Studie bleibt, wie es ist; die Datei der Studie selbst wird nicht angerührt.",
  noneOfBath: "Keine vorhandene Studie nennt dieses Bad: bitte diejenige wählen, die dazugehört. {stays}",
  otherBath:
    "Studie und Vermessung nennen nicht dasselbe Bad: die Vermessung des einen sagt nichts über ein anderes. {stays}",
  chooseFirst: "Bitte die Studie wählen, deren Größen die Vermessung ersetzt.",
  intoStudy: "In eine Studie",
  which: "Studie, deren Größen sie ersetzt",
  as: "{name} als",
  makeAndRun: "Die Studie erstellen und rechnen",
  showFirst: "Die Studie zuerst zeigen",
  kindList: "Von der Aufzeichnung zum Urteil",
  about:
    "Eine Vermessung ist eine Aufzeichnung von Thermometern, die zu bekannten Zeiten an bekannten Stellen im Bad standen. Aus ihr ergeben sich die Stabilität des Bades und seine senkrechten und waagrechten Differenzen, als Eingangsgrößen mit ihren Belegen.",
  own: "Eine eigene Vermessung",
  setUp: "Eine Vermessung aus einer Aufzeichnung einrichten",
  setUpNote:
    "Die Aufzeichnung ablegen, wie der Logger sie schrieb, dann angeben, welche Spalte welches Thermometer ist und was von wann bis wann wo stand. Entwürfe werden laufend aufbewahrt.",
  byHand: "Eine von Hand geschriebene Beschreibung (JSON) wird zusammen mit ihrer Aufzeichnung geöffnet mit ",
  dropped: " oder zusammen mit ihr irgendwo auf dieser Seite abgelegt.",
  atHand: "Vorhandene Vermessungen",
  none: "Noch keine. Wie oben beschrieben lässt sich eine eigene einrichten.",
  opened: ", hier geöffnet: aufbewahrt, bis der Server anhält",
  changeOne: "{title} ändern",
  change: "Ändern",
  kindOpened: "Vermessung eines Bades aus hier geöffneten Dateien: der Server bewahrt sie auf, bis er anhält",
  kind: "Vermessung eines Bades",
  changeOrAnother: "Diese Vermessung ändern oder eine weitere Aufzeichnung damit auswerten",
  all: "Alle Vermessungen",
};
