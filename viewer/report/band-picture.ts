import type { CalibrationFit, CalibrationResult } from "../../models/index.ts";
import { bandName, bandScene } from "../present/pictures/band.ts";
import type { Speech } from "../present/statement.ts";
import { WIDE, sceneMarkup } from "./draw/scene.ts";
import { html, type Markup } from "./markup.ts";

/** The fitted curve's error with its bands, and the points, with a caption. */
export const bandPicture = (result: CalibrationResult, fit: CalibrationFit, speech: Speech): Markup =>
  html`<figure>
    <div class="pictures">${sceneMarkup(bandScene(result, fit, { width: WIDE, height: 220 }, speech))}</div>
    <figcaption><span class="label">${speech.messages.figure}</span> ${bandName(result, speech)}</figcaption>
  </figure>`;
