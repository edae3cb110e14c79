import { speech, words } from "../language.ts";
import { fillText } from "../../present/fill.ts";
import type { InputRecord } from "../../../engine/index.ts";
import { withUnit } from "../../present/numbers.ts";
import { significant } from "../numbers.ts";
import { inputDensityScene } from "../../present/pictures/input-density.ts";
import { sceneNode } from "./scene.ts";

/** The shape of an input's distribution with its range in words. */
export function densityPicture(input: InputRecord): SVGSVGElement {
  const { curve, standardUncertainty } = input;
  return sceneNode(inputDensityScene(curve, standardUncertainty === 0, nameOf(input)));
}

function nameOf({ curve, distribution: kind, unit, estimate, standardUncertainty }: InputRecord): string {
  const distribution = speech.translate(kind);
  if (curve.length === 0)
    return standardUncertainty === 0 ? words.draw.oneValue : fillText(words.draw.noDensity, { distribution });
  const [from, to] = [curve[0]![0], curve.at(-1)![0]];
  const around =
    Math.abs(to - from) < 0.02 * Math.abs(estimate)
      ? fillText(words.draw.around, { value: withUnit(significant(estimate, 6), unit) })
      : fillText(words.draw.range, { from: significant(from, 2), to: withUnit(significant(to, 2), unit) });
  return fillText(words.draw.density, { distribution, around });
}
