import type { PageWords } from "../words.ts";

/** What was not done, in German. */
export const actionsWords: PageWords["actions"] = {
  evidenceNotListed: "Die Nachweise lassen sich nicht auflisten",
  evidenceNotShown: "Dieser Nachweis lässt sich nicht zeigen",
  notShown: {
    run: "Der Lauf „{id}“ lässt sich nicht zeigen",
    draft: "Der Entwurf „{id}“ lässt sich nicht zeigen",
    survey: "Die Vermessung „{id}“ lässt sich nicht zeigen",
    study: "Die Studie „{id}“ lässt sich nicht zeigen",
  },
  notOpened: "„{file}“ wurde nicht geöffnet",
  filesNotOpened: "Diese {n} Dateien wurden nicht geöffnet",
  stillThere: "Was auf der Seite stand, ist noch da.",
  listsUnread: "Die Listen der Studien und Läufe lassen sich nicht lesen",
  notRemoved: "Nicht jeder Lauf wurde entfernt",
  notBroughtBack: "Nicht jeder Lauf wurde zurückgeholt",
  notPutBack: "Der Lauf wurde nicht zurückgeholt",
  noteNotKept: "Die Notiz wurde nicht aufbewahrt",
  surveysNotListed: "Die Vermessungen lassen sich nicht auflisten",
  surveyNotSetUp: "Die Vermessung lässt sich nicht einrichten",
  comparisonNotShown: "Der Vergleich lässt sich nicht zeigen",
  notEdited: "Die Studie dieses Laufs lässt sich nicht bearbeiten",
  notRun: "Die Studie wurde nicht gerechnet",
  notDiscarded: "Der Entwurf wurde nicht verworfen",
  notTakenUp: "Der Entwurf wurde nicht wieder aufgenommen",
  notRenamed: "Die Studie wurde nicht umbenannt",
  defaultsNotKept: "Die Vorgaben des Laboratoriums wurden nicht aufbewahrt",
  notCancelled: "Der Lauf wurde nicht abgebrochen",
  notMade: "Die Studie wurde nicht erstellt",
};
