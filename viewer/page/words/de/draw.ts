import type { PageWords } from "../words.ts";

/** Pictures, in German. */
export const drawWords: PageWords["draw"] = {
  oneValue: "alles bei einem Wert",
  noDensity: "{distribution}: keine Dichte zu zeichnen",
  around: "um {value}",
  range: "{from} bis {to}",
  density: "Dichte: {distribution}, {around}",
  equation: "Gleichung als Mathematik",
};
