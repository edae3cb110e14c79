/** Models of no particular trade. */
export const general: Readonly<Record<string, string>> = {
  "Lethality of a steriliser hold, from the corrected reading of its probe":
    "Letalität einer Sterilisationshaltezeit aus der korrigierten Anzeige des Fühlers",
  "common practice in moist-heat sterilisation: t_ref = 121.11 °C and z = 10 °C for F_0":
    "übliche Praxis der Sterilisation mit feuchter Hitze: t_ref = 121,11 °C und z = 10 °C für F_0",
  "temperature that the probe indicates in the load": "Temperatur, die der Fühler in der Beladung anzeigt",
  "error of the probe from its calibration": "Messabweichung des Fühlers nach seiner Kalibrierung",
  "reference temperature of the process": "Bezugstemperatur des Prozesses",
  "temperature change that changes the lethal rate tenfold":
    "Temperaturänderung, die die Abtötungsrate auf das Zehnfache ändert",
  "duration of the hold": "Dauer der Haltezeit",
  "equivalent time at the reference temperature": "gleichwertige Zeit bei der Bezugstemperatur",
  "Sum of terms with coefficients": "Summe von Gliedern mit Koeffizienten",
  "JCGM 101:2008, 9.2; the usual form of an uncertainty budget table":
    "JCGM 101:2008, 9.2; die übliche Form einer Tabelle eines Unsicherheitsbudgets",
  "sum of the terms": "Summe der Glieder",
  "Typed equation": "Eingegebene Gleichung",
  "the log of a survey": "die Aufzeichnung einer Vermessung",
  "the steps of a survey": "die Schritte einer Vermessung",
  "the positions of a survey": "die Positionen einer Vermessung",
  "the description of a survey": "die Beschreibung einer Vermessung",
  "the rows of a budget": "die Zeilen eines Budgets",
  "the readings of a comparison": "die Anzeigen eines Vergleichs",
  "the description of a comparison": "die Beschreibung eines Vergleichs",
  "a budget table": "eine Budgettabelle",
  "stated in the study": "in der Studie angegeben",
};
