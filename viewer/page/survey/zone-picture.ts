import { axisBelow, axisLeft, roomForTicks, scaleOver } from "../draw/axis.ts";
import { svg, type Child } from "../draw/node.ts";
import { fillText } from "../../present/fill.ts";
import { messages } from "../language.ts";
import { withUnit } from "../../present/numbers.ts";
import type { EvaluatedSurvey, ZonePoint } from "../../api/surveys.ts";
import { milli, millimetres, signed } from "./figures.ts";
import { pointReader, readRing } from "./point-reader.ts";

const words = messages.surveyPanels;

const TOP = 34;
const TICKS = 5;
/** Radius of the largest mark, px. */
const LARGEST = 13;
/** About the width of a letter of the labels. */
const LETTER = 6.6;

/** Directions that are drawn to the right and to the left of one picture. */
export type Sides = readonly [right: string, left: string | null];

/** The horizontal directions that were surveyed, two to a picture; one picture if only depths were. */
export function sidesOf({ evaluation: { map } }: EvaluatedSurvey): readonly Sides[] {
  const names = [...new Set(map.points.filter(({ radius }) => radius > 0).map(({ direction }) => direction ?? ""))];
  const sides: Sides[] = [];
  for (let i = 0; i < Math.max(1, names.length); i += 2) sides.push([names[i] ?? "", names[i + 1] ?? null]);
  return sides;
}

/**
 * Differences from the reference position over depth and radius. A mark is as large as its difference: filled if it is
 * warmer, open if it is colder. The chosen zone is outlined, the smaller ones dotted.
 */
export function zonePicture(
  survey: EvaluatedSurvey,
  [rightName, leftName]: Sides,
  id: string,
  width: number,
): HTMLElement {
  const { map, axial, radial } = survey.evaluation;
  const points = map.points.filter(
    ({ radius, direction }) => radius === 0 || [rightName, leftName].includes(direction ?? ""),
  );
  const side = ({ radius, direction }: ZonePoint): number =>
    radius > 0 && (direction ?? "") === leftName ? -radius : radius;
  const reach = Math.max(radial?.zone[1] ?? 0, ...points.map(({ radius }) => radius), 10);
  const depths = [...points.map(({ depth }) => depth), ...(axial?.zone ?? [])];
  const [least, most] = [Math.min(...depths), Math.max(...depths)];
  const single = most === least ? 10 : 0;
  const height = Math.round(Math.min(340, Math.max(260, 0.62 * width)));
  const bottom = TOP + height;
  // Below the lowest mark there must be room for its words.
  const y = scaleOver([least - single, most + single], [TOP + 22, bottom - 50]);
  const left = roomForTicks(y, TICKS);
  const x = scaleOver([leftName === null ? -0.35 * reach : -1.35 * reach, 1.35 * reach], [left, width - 8]);
  const largest = Math.max(...points.map(({ difference }) => Math.abs(difference)), 1e-6);
  const places = points.map((point) => ({ x: x(side(point)), y: y(point.depth) }));
  const ring = svg("circle", { class: "cursor" });
  const total = bottom + 44;
  const zones = [
    { depth: axial?.zone ?? null, radius: radial?.zone[1] ?? null, kind: "zone-chosen" },
    ...[0, 1, 2].map((i) => ({
      depth: axial === null ? null : ([axial.smaller[i]!.from, axial.smaller[i]!.to] as const),
      radius: radial?.smaller[i]!.to ?? null,
      kind: "limit",
    })),
  ];
  const picture = svg(
    "svg",
    {
      class: "zone",
      width,
      height: total,
      viewBox: `0 0 ${width} ${total}`,
      role: "img",
      "aria-label": fillText(leftName === null ? words.zoneName : words.zoneNameSides, {
        reference: map.reference.position,
        left: leftName ?? "",
        right: rightName,
        lowest: signed(Math.min(...points.map(({ difference }) => difference))),
        highest: signed(Math.max(...points.map(({ difference }) => difference))),
      }),
    },
    svg("text", { class: "axis-title", x: 0, y: 12 }, words.depthAxis),
    leftName === null || leftName === ""
      ? null
      : svg("text", { class: "axis-title", x: left, y: TOP - 8 }, `← ${leftName}`),
    rightName === ""
      ? null
      : svg("text", { class: "axis-title", x: width - 8, y: TOP - 8, "text-anchor": "end" }, `${rightName} →`),
    axisLeft(y, left, width - 8, TICKS),
    zones.map(({ depth, radius, kind }): Child => {
      // Along an axis that was not surveyed the zone is no more than the line of the other one.
      const [top, low] =
        depth === null ? [y(map.reference.depth) - 14, y(map.reference.depth) + 14] : [y(depth[0]), y(depth[1])];
      const [from, to] = radius === null ? [x(0) - 14, x(0) + 14] : [x(leftName === null ? 0 : -radius), x(radius)];
      return svg("rect", { class: kind, x: from, y: top, width: to - from, height: low - top });
    }),
    points.map((point, i): Child => mark(point, point.position === map.reference.position, places[i]!, largest)),
    ring,
    axisBelow(x, bottom, width),
    svg(
      "text",
      { class: "axis-title", x: (left + width) / 2, y: total - 6, "text-anchor": "middle" },
      leftName === null || leftName === "" ? words.radiusAxis : fillText(words.radiusAxisSides, { left: leftName }),
    ),
  );
  return pointReader({
    id,
    picture,
    width,
    height: total,
    points: places,
    label: leftName === null ? words.readZone : fillText(words.readZoneSides, { left: leftName, right: rightName }),
    hint: messages.reading.hint,
    tell(i) {
      const { position, depth, radius, direction, difference, standardUncertainty } = points[i]!;
      const where = fillText(words.place, {
        position,
        depth: millimetres(depth),
        radius: `${millimetres(radius)}${direction === null ? "" : ` ${direction}`}`,
      });
      return position === map.reference.position
        ? fillText(words.isReference, { place: where })
        : fillText(words.isDifference, { place: where, difference: signed(difference), u: milli(standardUncertainty) });
    },
    mark: (i) => readRing(ring, i === null ? undefined : places[i]),
  });
}

function mark(
  { position, difference }: ZonePoint,
  isReference: boolean,
  { x, y }: { readonly x: number; readonly y: number },
  largest: number,
): Child {
  const radius = 4 + (LARGEST - 4) * Math.sqrt(Math.abs(difference) / largest);
  const shape = isReference
    ? svg("path", { class: "zone-reference", d: `M${x - 6} ${y - 6}h12v12h-12ZM${x - 6} ${y}h12M${x} ${y - 6}v12` })
    : svg("circle", { class: difference < 0 ? "zone-colder" : "zone-warmer", cx: x, cy: y, r: radius.toFixed(1) });
  const figure = isReference ? withUnit("0", "mK") : signed(difference);
  const room = LETTER * Math.max(position.length, figure.length) + 6;
  return svg(
    "g",
    {},
    svg("rect", { class: "ground", x: x - room / 2, y: y + LARGEST + 2, width: room, height: 29 }),
    shape,
    svg("text", { x, y: y + LARGEST + 13, "text-anchor": "middle" }, position),
    svg("text", { class: "strong", x, y: y + LARGEST + 27, "text-anchor": "middle" }, figure),
  );
}
