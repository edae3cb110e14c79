import type { CalibrationFit, CalibrationResult } from "../../models/index.ts";
import { fillText } from "../present/fill.ts";
import { overUnit } from "../present/numbers.ts";
import { curveScene } from "../present/pictures/curve.ts";
import type { Speech } from "../present/statement.ts";
import { WIDE, sceneMarkup } from "./draw/scene.ts";
import { html, type Markup } from "./markup.ts";

/** The fitted curve's error with its bands, and the points. */
export function bandPicture(
  result: CalibrationResult,
  { band }: CalibrationFit,
  { messages, numbers }: Speech,
): Markup {
  const words = messages.calibration;
  const name = fillText(words.picture, { instrument: result.instrument });
  const { scene } = curveScene(
    {
      name,
      titles: [
        [{ symbol: "t" }, overUnit("", "°C")],
        [{ symbol: "e" }, overUnit("", "°C")],
      ],
      points: band.map(({ at, error, halfWidth, interval }) => ({
        at,
        linear: [error - halfWidth, error, error + halfWidth],
        monteCarlo: [interval[0], error, interval[1]],
      })),
      observed: result.points.map(({ temperature, error }) => [temperature, error]),
      width: WIDE,
      height: 220,
    },
    numbers,
  );
  return html`<figure>
    <div class="pictures">${sceneMarkup(scene)}</div>
    <figcaption><span class="label">${messages.figure}</span> ${name}</figcaption>
  </figure>`;
}
