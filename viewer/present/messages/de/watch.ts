import type { Messages } from "../messages.ts";

/** German words: a log that is followed. */
export const watchWords: Pick<Messages, "watch"> = {
  watch: {
    noWindow: "noch kein ganzes Fenster",
    within: "innerhalb ±{limit} mK seit {since}",
    met: "erfüllt seit {since}",
    notMet: "nicht erfüllt: {within}; muss noch {time} halten",
    absent: "Die Datei ist nicht da: es wird auf sie gewartet.",
    waiting: "Es wird auf Anzeigen gewartet.",
    readings: "{count} Anzeigen von {from} bis {to}",
    interval: ", eine alle {time}",
    gaps: ", {count} Lücken",
    window: "Fenster {time}",
    calibration: ", Kalibrierung {time}",
    criterion: ", Kriterium ±{limit} mK",
    thermometer: "Thermometer",
    now: "jetzt, °C",
    drift: "Drift, mK/h",
    latest: "letztes Fenster, ±mK",
    worst: "schlechtestes Fenster, ±mK",
    worstFrom: "schlechtestes ab",
    leftOut: "{count} Zeilen mit Unverwendbarem; die letzte: {latest}",
    driftOf: "Drift {value} mK/h",
    windowOf: "Fenster ±{value} mK",
    notWhole: "{window} (nicht ganz)",
    noWorst: "noch kein schlechtestes Fenster",
    worstOf: "schlechtestes ±{value} mK ab {from}",
  },
};
