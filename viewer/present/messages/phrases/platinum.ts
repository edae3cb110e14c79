/** Platinum thermometers: fits, fixed points, probes in a plant. */
export const platinum: Readonly<Record<string, string>> = {
  "Coefficients of a platinum probe from its calibration points, and the temperature in use":
    "Koeffizienten eines Platinfühlers aus seinen Kalibrierpunkten und die Temperatur im Gebrauch",
  "Callendar–Van Dusen equation in the form of IEC 60751, clause 4, with the probe's own coefficients; least squares":
    "Callendar–Van-Dusen-Gleichung in der Form von IEC 60751, Abschnitt 4, mit den eigenen Koeffizienten des Fühlers; kleinste Quadrate",
  "temperature by the reference in bath {number}, near {t} °C":
    "Temperatur nach dem Normal in Bad {number}, nahe {t} °C",
  "resistance of the probe in bath {number}, near {t} °C": "Widerstand des Fühlers in Bad {number}, nahe {t} °C",
  "difference and change of temperature of bath {number} alone, and the probe's repeatability there":
    "Differenz und Änderung der Temperatur allein von Bad {number} und die Wiederholbarkeit des Fühlers dort",
  "correction of the reference, the same at every point": "Korrektion des Normals, an jedem Punkt dieselbe",
  "correction of the reference that grows with temperature": "Korrektion des Normals, die mit der Temperatur wächst",
  "temperature of the probe's place in the baths less that of the reference's, the same at every point":
    "Temperatur am Ort des Fühlers in den Bädern abzüglich der am Ort des Normals, an jedem Punkt dieselbe",
  "correction of the readout at calibration, the same at every point":
    "Korrektion der Anzeige bei der Kalibrierung, an jedem Punkt dieselbe",
  "correction of the readout at calibration in proportion to resistance":
    "Korrektion der Anzeige bei der Kalibrierung, proportional zum Widerstand",
  "warming of the probe by its current in the baths": "Erwärmung des Fühlers durch seinen Messstrom in den Bädern",
  "resistance of the probe in use": "Widerstand des Fühlers im Gebrauch",
  "correction of the readout in use": "Korrektion der Anzeige im Gebrauch",
  "relative change of the probe's resistance since its calibration":
    "relative Änderung des Fühlerwiderstands seit seiner Kalibrierung",
  "warming of the probe by its current in use": "Erwärmung des Fühlers durch seinen Messstrom im Gebrauch",
  "departure of the probe from its fitted curve at the temperature in use, between and beyond its points":
    "Abweichung des Fühlers von seiner angepassten Kurve bei der Temperatur im Gebrauch, zwischen und jenseits seiner Punkte",
  "resistance of the probe at 0 °C": "Widerstand des Fühlers bei 0 °C",
  "coefficient {name} of the probe": "Koeffizient {name} des Fühlers",
  "temperature in use": "Temperatur im Gebrauch",
  "temperature of the probe": "Temperatur des Fühlers",
  "resistance of the probe by its fitted coefficients": "Widerstand des Fühlers nach seinen angepassten Koeffizienten",
  "Standard platinum resistance thermometer calibrated at fixed points, and the temperature in use":
    "An Fixpunkten kalibriertes Normal-Platin-Widerstandsthermometer und die Temperatur im Gebrauch",
  "ITS-90 (Metrologia 27 (1990) 3–10), 3.3 and tables 1, 2, 4, 5; extrapolation to zero current is common practice":
    "ITS-90 (Metrologia 27 (1990) 3–10), 3.3 und Tabellen 1, 2, 4, 5; die Extrapolation auf den Strom null ist übliche Praxis",
  "{quantity}, {point}": "{quantity}, {point}",
  "bridge ratio at the first current": "Brückenverhältnis beim ersten Strom",
  "bridge ratio at the second current": "Brückenverhältnis beim zweiten Strom",
  "correction of the bridge": "Korrektion der Brücke",
  "relative change of the standard resistor since the triple point of water was measured":
    "relative Änderung des Normalwiderstands seit der Messung am Wassertripelpunkt",
  "depth of the middle of the sensor below the surface": "Tiefe der Mitte des Sensors unter der Oberfläche",
  "pressure over the surface": "Druck über der Oberfläche",
  "realised temperature T₉₀": "dargestellte Temperatur T₉₀",
  "departure of the cell from the fixed point: impurities, isotopes, plateau, heat flux, {point}":
    "Abweichung der Zelle vom Fixpunkt: Verunreinigungen, Isotope, Plateau, Wärmestrom, {point}",
  "triple point of equilibrium hydrogen": "Tripelpunkt von Gleichgewichtswasserstoff",
  "triple point of water": "Wassertripelpunkt",
  "triple point of {substance}": "Tripelpunkt von {substance}",
  "melting point of {substance}": "Schmelzpunkt von {substance}",
  "freezing point of {substance}": "Erstarrungspunkt von {substance}",
  neon: "Neon",
  oxygen: "Sauerstoff",
  argon: "Argon",
  mercury: "Quecksilber",
  gallium: "Gallium",
  indium: "Indium",
  tin: "Zinn",
  zinc: "Zink",
  aluminium: "Aluminium",
  silver: "Silber",
  "bridge ratio of the thermometer in use, at zero current":
    "Brückenverhältnis des Thermometers im Gebrauch, beim Strom null",
  "bridge ratio at the triple point of water measured in use, zero current, 273.16 K":
    "im Gebrauch gemessenes Brückenverhältnis am Wassertripelpunkt, beim Strom null, 273,16 K",
  "correction of the bridge at the ratio in use": "Korrektion der Brücke beim Verhältnis im Gebrauch",
  "relative change of R(273.16 K) from its last measurement to use":
    "relative Änderung von R(273,16 K) von der letzten Messung bis zum Gebrauch",
  "warming left after extrapolation to zero current in use":
    "nach der Extrapolation auf den Strom null verbleibende Erwärmung im Gebrauch",
  "non-uniqueness of ITS-90 between thermometers of one kind at this temperature":
    "Nichteindeutigkeit der ITS-90 zwischen Thermometern einer Art bei dieser Temperatur",
  "inconsistency between the sub-ranges of ITS-90 that include this temperature":
    "Inkonsistenz zwischen den Teilbereichen der ITS-90, die diese Temperatur enthalten",
  "coefficient {name} of the deviation function": "Koeffizient {name} der Abweichungsfunktion",
  "temperature in use, t₉₀": "Temperatur im Gebrauch, t₉₀",
  "Platinum probe with two-wire leads in a plant": "Platinfühler mit Zweileiteranschluss in einer Anlage",
  "t(R) by IEC 60751, clause 4; lead and insulation terms: common practice":
    "t(R) nach IEC 60751, Abschnitt 4; Glieder der Zuleitungen und der Isolation: übliche Praxis",
  "resistance at the transmitter's terminals, mean of the indications":
    "Widerstand an den Klemmen des Messumformers, Mittelwert der Anzeigen",
  "correction of the transmitter": "Korrektion des Messumformers",
  "resistance of one lead at 20 °C": "Widerstand einer Zuleitung bei 20 °C",
  "temperature along the cable run": "Temperatur längs des Kabelwegs",
  "temperature coefficient of the leads at 20 °C": "Temperaturkoeffizient der Zuleitungen bei 20 °C",
  "resistance of terminals and contacts together": "Widerstand von Klemmen und Kontakten zusammen",
  "conductance of the insulation beside the sensor": "Leitwert der Isolation parallel zum Sensor",
  "change of R_0 since the probe was new or last checked":
    "Änderung von R_0, seit der Fühler neu war oder zuletzt geprüft wurde",
  "departure of the probe from the standard curve, within its tolerance class":
    "Abweichung des Fühlers von der Normkennlinie, innerhalb seiner Toleranzklasse",
  "heat conducted along pocket and stem": "Wärmeableitung längs Schutzrohr und Fühlerrohr",
  "temperature of the medium at the probe": "Temperatur des Mediums am Fühler",
  "IEC 60751:2022, class {name} at {t} °C": "IEC 60751:2022, Klasse {name} bei {t} °C",
  "IEC 60751:2022, class {name} at {t} °C, wire element": "IEC 60751:2022, Klasse {name} bei {t} °C, Drahtwiderstand",
  "IEC 60751:2022, class {name} at {t} °C, film element": "IEC 60751:2022, Klasse {name} bei {t} °C, Schichtwiderstand",
};
