/** A calibration at several points. */
export const calibration: Readonly<Record<string, string>> = {
  "Calibration of a thermometer at several points that share inputs":
    "Kalibrierung eines Thermometers an mehreren Punkten mit gemeinsamen Eingangsgrößen",
  "common practice in comparison calibration; joint measurands by JCGM 102; curve in the form of IEC 60751, clause 4, or of ITS-90, by least squares":
    "übliche Praxis der Vergleichskalibrierung; mehrere Messgrößen zugleich nach JCGM 102; Kurve in der Form von IEC 60751, Abschnitt 4, oder der ITS-90, nach kleinsten Quadraten",
  "error of the thermometer, point {number} at {t} °C": "Abweichung des Thermometers, Punkt {number} bei {t} °C",
  "{meaning}, point {number} at {t} °C": "{meaning}, Punkt {number} bei {t} °C",
  "{meaning}, shared by {count} points, the first of them point {number}":
    "{meaning}, {count} Punkten gemeinsam, zuerst an Punkt {number}",
  "resistance of the thermometer at the triple point of water, 0.01 °C":
    "Widerstand des Thermometers am Tripelpunkt von Wasser, 0,01 °C",
  "coefficient {name} of the thermometer in sub-range {number} of ITS-90":
    "Koeffizient {name} des Thermometers im Teilbereich {number} der ITS-90",
  "temperature of the thermometer": "Temperatur des Thermometers",
  "error of the thermometer by its fitted coefficients":
    "Abweichung des Thermometers nach seinen angepassten Koeffizienten",
};
