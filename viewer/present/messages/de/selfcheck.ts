import type { Messages } from "../messages.ts";

/** German words: the check of an installation. */
export const selfcheckWords: Pick<Messages, "selfcheck"> = {
  selfcheck: {
    tally: "{passed} bestanden, {failed} nicht bestanden",
    quick:
      "Schnell: 200 000 Versuche je Studie statt einer Million, jeder fünfte oder zehnte Punkt der langen Tabellen, keine adaptiven Läufe. Ohne --quick wird alles geprüft.",
    full: "Voll: jede Studie mit mindestens einer Million Versuchen, jeder Punkt der Tabellen.",
    holds: "Diese Installation ergibt jeden veröffentlichten und unabhängig bekannten Wert innerhalb seiner Toleranz.",
    fails:
      "Diese Installation ergibt nicht jeden Wert, den sie ergeben soll. Ihre Ergebnisse sind nicht zu verwenden, bis jede nicht bestandene Zeile geklärt ist.",
    date: "Datum",
    folder: "Ordner",
    program: "Trialband",
    commit: "Commit",
    noCommit: "keiner: der Build entstand nicht aus einem Checkout",
    engine: "Quellen der Engine",
    models: "Quellen der Modelle",
    runtime: "JavaScript",
    system: "System",
    processor: "Prozessor",
    scope: "Umfang",
    draws: "Zufallszahlen",
    ownSeeds: "die Startwerte, die die Studien angeben: dieser Bericht wiederholt sich auf die Ziffer",
    seed: "Startwert {seed}",
    time: "Dauer",
    timeWith: "{seconds} s mit {workers} Threads",
    timeAlone: "{seconds} s mit 1 Thread",
    repeat: "Zum Wiederholen",
    whatFailed: "Was nicht bestanden hat",
    failedLines: "Nicht bestandene Zeilen",
    outcome: "Ergebnis",
    what: "Was",
    published: "Veröffentlicht",
    obtained: "Erhalten",
    tolerance: "Toleranz",
    source: "Quelle: {source}",
  },
};
