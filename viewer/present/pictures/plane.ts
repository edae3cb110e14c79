import type { Numbers } from "../numbers.ts";
import { roomForTicks, scaleOver, type Scale } from "./axis.ts";

/** Height of the base line of the vertical axis' title, and of the plane's upper edge below it. */
export const TITLE = 12;
const TOP = TITLE + 18;
/** Values along the vertical axis, about. */
export const TICKS = 5;
/** Room at the right edge for half a number below the axis. */
export const EDGE = 16;
/** Room below the plane for numbers and title of its axis. */
const BELOW = 46;

/** What is drawn: values along the horizontal axis and up the vertical one. */
interface Drawn {
  readonly along: readonly number[];
  readonly up: readonly number[];
  /** Value at which the vertical axis begins; without it a margin below the least one. */
  readonly from: number | undefined;
  /** Room left and right of the outermost values, as a part of their distance. */
  readonly aside: number;
}

/** Two linear scales that hold all values, and the edges between which they lie, in pixels. */
export interface Plane {
  readonly x: Scale;
  readonly y: Scale;
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  /** Height of the whole picture, with titles and numbers. */
  readonly whole: number;
}

/**
 * The plane of a picture of values over a quantity.
 *
 * @param room width of the picture, height of its plane, and what its right edge leaves free, in pixels
 */
export function plane(
  { along, up, from, aside }: Drawn,
  room: { readonly width: number; readonly height: number; readonly right: number },
  numbers: Numbers,
): Plane {
  const bottom = TOP + room.height;
  const [least, most] = [Math.min(...up, from ?? Infinity), Math.max(...up)];
  const margin = 0.06 * (most - least) || Math.abs(most) || 1;
  const y = scaleOver([from === undefined ? least - margin : least, most + margin], [bottom, TOP]);
  const [first, last] = [Math.min(...along), Math.max(...along)];
  const beside = aside * (last - first) || Math.abs(first) || 1;
  const x = scaleOver([first - beside, last + beside], [roomForTicks(y, TICKS, numbers), room.width - room.right]);
  const [left, right] = x.range() as [number, number];
  return { x, y, left, right, bottom, whole: bottom + BELOW };
}
