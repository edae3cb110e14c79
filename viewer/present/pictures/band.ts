import type { CalibrationFit, CalibrationResult } from "../../../models/index.ts";
import { fillText } from "../fill.ts";
import { overUnit } from "../numbers.ts";
import type { Speech } from "../statement.ts";
import { curveScene } from "./curve.ts";
import type { Scene } from "./scene.ts";

/** What the picture of a calibration's curve says, for a caption and for those who hear it. */
export const bandName = ({ instrument }: CalibrationResult, { messages }: Speech): string =>
  fillText(messages.calibration.picture, { instrument });

/** The fitted curve's error with its bands, and the points. */
export function bandScene(
  result: CalibrationResult,
  { band }: CalibrationFit,
  size: { readonly width: number; readonly height: number },
  speech: Speech,
): Scene {
  return curveScene(
    {
      name: bandName(result, speech),
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
      ...size,
    },
    speech.numbers,
  ).scene;
}
