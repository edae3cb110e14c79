import { speech } from "../language.ts";
import type { Scale } from "../../present/pictures/axis.ts";
import { curveScene, type CurvePicture } from "../../present/pictures/curve.ts";
import { svg } from "./node.ts";
import { sceneNode } from "./scene.ts";

/** The drawn curve, with what a reader of it needs to know. */
export interface DrawnCurve {
  readonly picture: SVGSVGElement;
  readonly x: Scale;
  readonly top: number;
  readonly bottom: number;
  /** Marks a point, by its place in the list, or takes the mark away. */
  mark(point: number | null): void;
}

/** A curve with its bands, and a line along it that marks an argument. */
export function curvePicture(curve: CurvePicture): DrawnCurve {
  const { scene, x, top, bottom } = curveScene(curve, speech.numbers);
  const picture = sceneNode(scene);
  const marker = svg("path", { class: "cursor" });
  picture.append(marker);
  return {
    picture,
    x,
    top,
    bottom,
    mark: (point) =>
      point === null
        ? marker.removeAttribute("d")
        : marker.setAttribute("d", `M${x(curve.points[point]!.at).toFixed(1)} ${top}V${bottom}`),
  };
}
