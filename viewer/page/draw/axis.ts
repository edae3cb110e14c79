import * as axis from "../../present/pictures/axis.ts";
import { markNode } from "./scene.ts";

export { roomForTicks, scaleOver, type Scale } from "../../present/pictures/axis.ts";

/** A horizontal axis along the line `y` of a picture `width` wide. */
export const axisBelow = (scale: axis.Scale, y: number, width: number): SVGElement =>
  markNode(axis.axisBelow(scale, y, width));

/** A vertical axis at `x` with faint lines across to `right`. */
export const axisLeft = (scale: axis.Scale, x: number, right: number, count: number): SVGElement =>
  markNode(axis.axisLeft(scale, x, right, count));
