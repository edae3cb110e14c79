import { speech } from "../language.ts";
import * as axis from "../../present/pictures/axis.ts";
import { markNode } from "./scene.ts";

export { scaleOver, type Scale } from "../../present/pictures/axis.ts";

/** A horizontal axis along the line `y` of a picture `width` wide. */
export const axisBelow = (scale: axis.Scale, y: number, width: number): SVGElement =>
  markNode(axis.axisBelow(scale, y, width, speech.numbers));

/** A vertical axis at `x` with faint lines across to `right`. */
export const axisLeft = (scale: axis.Scale, x: number, right: number, count: number): SVGElement =>
  markNode(axis.axisLeft(scale, x, right, count, speech.numbers));

/** Width that the texts of a vertical axis take, with the space to the axis. */
export const roomForTicks = (scale: axis.Scale, count: number): number =>
  axis.roomForTicks(scale, count, speech.numbers);
