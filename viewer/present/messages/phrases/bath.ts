/** Comparisons in a stirred bath. */
export const bath: Readonly<Record<string, string>> = {
  "Platinum thermometer compared with a reference in a stirred bath":
    "Platin-Widerstandsthermometer im Vergleich mit einem Normal im Rührbad",
  "common practice in comparison calibration; t(R) by IEC 60751, clause 4":
    "übliche Praxis der Vergleichskalibrierung; t(R) nach IEC 60751, Abschnitt 4",
  "Probe compared with a standard platinum resistance thermometer in a stirred bath":
    "Fühler im Vergleich mit einem Normal-Platin-Widerstandsthermometer im Rührbad",
  "ITS-90 (Metrologia 27 (1990) 3–10), IEC 60751, clause 4; common practice in comparison calibration":
    "ITS-90 (Metrologia 27 (1990) 3–10), IEC 60751, Abschnitt 4; übliche Praxis der Vergleichskalibrierung",
  "resistance of the probe, mean of the indications": "Widerstand des Fühlers, Mittelwert der Anzeigen",
  "nominal resistance of the probe at 0 °C": "Nennwiderstand des Fühlers bei 0 °C",
  "correction of the resistance readout on the probe's channel":
    "Korrektion der Widerstandsanzeige im Kanal des Fühlers",
  "rounding of the resistance readout": "Rundung der Widerstandsanzeige",
  "warming of the probe by its measuring current": "Erwärmung des Fühlers durch seinen Messstrom",
  "heat conducted along the probe's stem": "Wärmeableitung längs des Fühlerrohrs",
  "dependence of the probe on its thermal history": "Abhängigkeit des Fühlers von seiner thermischen Vorgeschichte",
  "change of the probe from one immersion to the next": "Änderung des Fühlers von einem Eintauchen zum nächsten",
  "temperature indicated by the reference, mean of the indications":
    "vom Normal angezeigte Temperatur, Mittelwert der Anzeigen",
  "correction of the reference from its certificate": "Korrektion des Normals nach seinem Kalibrierschein",
  "drift of the reference since its calibration": "Drift des Normals seit seiner Kalibrierung",
  "correction of the readout on the reference's channel": "Korrektion der Anzeige im Kanal des Normals",
  "vertical temperature difference between the two thermometers":
    "senkrechte Temperaturdifferenz zwischen den beiden Thermometern",
  "horizontal temperature difference between the two thermometers":
    "waagerechte Temperaturdifferenz zwischen den beiden Thermometern",
  "change of the bath between the two readings": "Änderung des Bades zwischen den beiden Ablesungen",
  "warming of the reference by its current beyond that of its calibration":
    "Erwärmung des Normals durch seinen Messstrom über die bei seiner Kalibrierung hinaus",
  "rounding of the reference's readout": "Rundung der Anzeige des Normals",
  "heat conducted along the reference's stem": "Wärmeableitung längs des Rohrs des Normals",
  "dependence of the reference on its thermal history": "Abhängigkeit des Normals von seiner thermischen Vorgeschichte",
  "departure of the reference's correction from the straight line between the points of its certificate":
    "Abweichung der Korrektion des Normals von der Geraden zwischen den Punkten seines Kalibrierscheins",
  "what the reference reads too much because it lags behind a drifting bath":
    "Mehranzeige des Normals, weil es einem driftenden Bad nacheilt",
  "what the probe reads too much because it lags behind a drifting bath":
    "Mehranzeige des Fühlers, weil er einem driftenden Bad nacheilt",
  "difference between the two places in the bath that the probes themselves cause":
    "Differenz zwischen den beiden Orten im Bad, die die Fühler selbst verursachen",
  "resistance that the leads of the probe add": "zusätzlicher Widerstand der Zuleitungen des Fühlers",
  "what thermal voltages add to the resistance of the probe": "Beitrag von Thermospannungen zum Widerstand des Fühlers",
  "what leakage through the probe's insulation adds to its resistance, below zero":
    "Beitrag des Isolationsleckstroms zum Widerstand des Fühlers, kleiner als null",
  "bath temperature": "Badtemperatur",
  "error of the probe at the bath temperature": "Messabweichung des Fühlers bei der Badtemperatur",
  "resistance of the reference at the triple point of water": "Widerstand des Normals am Wassertripelpunkt",
  "bridge ratio of the reference to the standard resistor, mean of the indications":
    "Brückenverhältnis des Normals zum Normalwiderstand, Mittelwert der Anzeigen",
  "correction of the bridge at the reference's ratio": "Korrektion der Brücke beim Verhältnis des Normals",
  "bridge ratio of the probe to the standard resistor, mean of the indications":
    "Brückenverhältnis des Fühlers zum Normalwiderstand, Mittelwert der Anzeigen",
  "correction of the bridge at the probe's ratio": "Korrektion der Brücke beim Verhältnis des Fühlers",
  "standard resistor at its reference temperature, from its certificate":
    "Normalwiderstand bei seiner Bezugstemperatur, nach seinem Kalibrierschein",
  "temperature coefficient of the standard resistor": "Temperaturkoeffizient des Normalwiderstands",
  "temperature of the standard resistor less its reference temperature":
    "Temperatur des Normalwiderstands abzüglich seiner Bezugstemperatur",
  "relative change of the standard resistor since its calibration":
    "relative Änderung des Normalwiderstands seit seiner Kalibrierung",
  "bridge ratio of the reference to the same standard resistor at the triple point of water":
    "Brückenverhältnis des Normals zum selben Normalwiderstand am Wassertripelpunkt",
  "relative change of the reference at the triple point of water since it was measured there":
    "relative Änderung des Normals am Wassertripelpunkt, seit es dort gemessen wurde",
  "correction of the reference from the fixed points, as its certificate states it at this temperature":
    "Korrektion des Normals aus den Fixpunkten, wie sie sein Kalibrierschein bei dieser Temperatur angibt",
  "coefficient {name} of the reference in sub-range {number}": "Koeffizient {name} des Normals im Teilbereich {number}",
  "temperature of the bath at the reference, t₉₀": "Temperatur des Bades am Normal, t₉₀",
};
