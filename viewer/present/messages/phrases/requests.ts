/**
 * What the server answers where it refuses or cannot, and what it accepts instead: those that a reader of the page meets.
 * What has no words here stays in English and is marked as such. A place whose name begins with `own` holds any text.
 */
export const requests: Readonly<Record<string, string>> = {
  "The request cannot be used.": "Die Anfrage ist nicht verwendbar.",
  "One thing in the study cannot be used.": "Eine Angabe in der Studie ist nicht verwendbar.",
  "{n} things in the study cannot be used.": "{n} Angaben in der Studie sind nicht verwendbar.",
  "The run was cancelled.": "Der Lauf wurde abgebrochen.",
  "The run was cancelled before it began.": "Der Lauf wurde abgebrochen, bevor er begann.",
  "The selfcheck was cancelled.": "Die Selbstprüfung wurde abgebrochen.",
  "There is no run {own}.": "Es gibt keinen Lauf {own}.",
  "There is no study {own}.": "Es gibt keine Studie {own}.",
  "There is no study of the laboratory's own with the id {own}.": "Es gibt keine eigene Studie mit der Kennung {own}.",
  "There is no draft {own}.": "Es gibt keinen Entwurf {own}.",
  "There is no model {own}.": "Es gibt kein Modell {own}.",
  "There is nothing kept under {own}.": "Unter {own} ist nichts aufbewahrt.",
  "There is nothing at {own}.": "Unter {own} ist nichts.",
  "No file with this digest is kept.": "Keine Datei mit dieser Prüfsumme ist aufbewahrt.",
  "A file is not here.": "Eine Datei fehlt.",
  "The document is not a study.": "Das Dokument ist keine Studie.",
  "The note cannot be kept.": "Die Notiz lässt sich nicht aufbewahren.",
  "The study cannot be kept.": "Die Studie lässt sich nicht aufbewahren.",
  "A study is of one probe.": "Eine Studie gilt einem Fühler.",
  "Drift is evaluated from a certificate.": "Die Drift wird aus einem Kalibrierschein ermittelt.",
  "A draft has no digital calibration certificate: required fields are not filled.":
    "Ein Entwurf hat keinen digitalen Kalibrierschein: Pflichtangaben fehlen.",
  "The log of {own} is missing.": "Die Aufzeichnung von {own} fehlt.",
  "A record is being verified already; try again when that has ended.":
    "Es wird schon ein Protokoll geprüft; bitte erneut versuchen, wenn das beendet ist.",
  "A selfcheck is going on already; try again when it has ended.":
    "Eine Selbstprüfung läuft schon; bitte erneut versuchen, wenn sie beendet ist.",
  "The trials of another run are being sent; ask again in a moment.":
    "Die Versuche eines anderen Laufs werden gerade gesendet; bitte gleich erneut versuchen.",
  "{n} PDFs are being made already; try again in a moment.":
    "{n} PDF werden schon erstellt; bitte gleich erneut versuchen.",
  "Many people sign in at once; try again in a moment.":
    "Viele melden sich zugleich an; bitte gleich erneut versuchen.",
  "Nothing was changed.": "Nichts wurde geändert.",
  // What is accepted.
  "a number": "eine Zahl",
  "a finite number": "eine endliche Zahl",
  "a number greater than {n}": "eine Zahl größer als {n}",
  "a finite number greater than {n}": "eine endliche Zahl größer als {n}",
  "a number less than {n}": "eine Zahl kleiner als {n}",
  "a number of at least {n}": "eine Zahl von mindestens {n}",
  "a number of at most {n}": "eine Zahl von höchstens {n}",
  "a number from {low} to {high}": "eine Zahl von {low} bis {high}",
  "a number between {low} and {high}": "eine Zahl zwischen {low} und {high}",
  "a number greater than {n}, beside estimate": "eine Zahl größer als {n}, neben dem Schätzwert",
  "a number, with or without a unit after it": "eine Zahl, mit einer Einheit dahinter oder ohne",
  "a whole number": "eine ganze Zahl",
  "a whole number of at least {n}": "eine ganze Zahl von mindestens {n}",
  "a whole number from {low} to {high}": "eine ganze Zahl von {low} bis {high}",
  "a text": "ein Text",
  "at least one value": "mindestens ein Wert",
  "at least {n} values": "mindestens {n} Werte",
  "at least one earlier series": "mindestens eine frühere Reihe",
  "at least 2 values, or a history to take the deviation from":
    "mindestens 2 Werte, oder frühere Reihen, aus denen die Standardabweichung kommt",
  "an uncertainty greater than {n}": "eine Unsicherheit größer als {n}",
  "an uncertainty of at least {n}": "eine Unsicherheit von mindestens {n}",
  "an error greater than {n}": "eine Abweichung größer als {n}",
  "a depth greater than {n}": "eine Tiefe größer als {n}",
  "a length greater than {n}": "eine Länge größer als {n}",
  "a coverage factor greater than {n}": "ein Erweiterungsfaktor größer als {n}",
  "a day as YYYY-MM-DD": "ein Tag als Jahr-Monat-Tag, etwa 2026-03-02",
  "a day no earlier than the calibration, {day}": "ein Tag nicht vor der Kalibrierung, {day}",
  "a withdrawal, or readings at three or more depths": "ein Herausziehen, oder Ablesungen in drei oder mehr Tiefen",
  "a log: rows of time and readings": "eine Aufzeichnung: Zeilen mit Zeit und Ablesungen",
  "the CSV or XLSX file of the log, beside the description":
    "die CSV- oder XLSX-Datei der Aufzeichnung, neben der Beschreibung",
  "the CSV or XLSX file of the readings, beside the description":
    "die CSV- oder XLSX-Datei der Ablesungen, neben der Beschreibung",
  "an XLSX file that is whole": "eine unbeschädigte XLSX-Datei",
  "a closing quote": "ein schließendes Anführungszeichen",
  "a finite reading": "eine endliche Ablesung",
  "a finite temperature": "eine endliche Temperatur",
  "the id of a registered model, or a path to a file with a model":
    "die Kennung eines eingetragenen Modells, oder der Pfad einer Datei mit einem Modell",
  "the id of a listed study, or a study document": "die Kennung einer aufgeführten Studie, oder eine Studie",
  missing: "fehlt",
  nothing: "nichts",
};
