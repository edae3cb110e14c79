import type { InputRecord } from "../../../engine/index.ts";
import { significant, withUnit } from "../../present/numbers.ts";
import { inputDensityScene } from "../../present/pictures/input-density.ts";
import { sceneNode } from "./scene.ts";

/** The shape of an input's distribution with its range in words. */
export function densityPicture(input: InputRecord): SVGSVGElement {
  const { curve, standardUncertainty } = input;
  return sceneNode(inputDensityScene(curve, standardUncertainty === 0, nameOf(input)));
}

function nameOf({ curve, distribution, unit, estimate, standardUncertainty }: InputRecord): string {
  if (curve.length === 0) return standardUncertainty === 0 ? "all at one value" : `${distribution}: no density to draw`;
  const [from, to] = [curve[0]![0], curve.at(-1)![0]];
  const around =
    Math.abs(to - from) < 0.02 * Math.abs(estimate)
      ? `around ${withUnit(significant(estimate, 6), unit)}`
      : `${significant(from, 2)} to ${withUnit(significant(to, 2), unit)}`;
  return `density: ${distribution}, ${around}`;
}
