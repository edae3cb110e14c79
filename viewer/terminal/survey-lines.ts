import { duration, showInstant, type StabilityWindow, type SurveyEvaluation } from "../../models/index.ts";
import { wrap } from "./table.ts";
import { checkPart, listPart, milli, part, plain, tablePart, type Layout } from "./lines.ts";

/** A survey's evaluation for a terminal. */
export function surveyLines(
  evaluation: SurveyEvaluation,
  series: { readonly notes: readonly string[] },
  files: readonly { readonly name: string; readonly sha256: string }[],
  layout: Layout,
): string[] {
  const { title, samplings, checks, reasoning } = evaluation;
  const { styles, width } = layout;
  const logged = Object.entries(samplings).map(
    ([name, { samples, interval, from, to }]) =>
      `${name}: ${samples} readings, one every ${duration(interval)}, ${showInstant(from)} to ${showInstant(to)}`,
  );
  return [
    styles.bold(title),
    ...files.map(({ name, sha256 }) => styles.dim(`${name}  SHA-256 ${sha256}`)),
    ...[...logged, ...series.notes].map((line) => wrap(line, width, "  ")),
    ...stabilityPart(evaluation, layout),
    ...differencesPart(evaluation, layout),
    ...offsetPart(evaluation, layout),
    ...zonePart(evaluation, layout),
    ...smallerPart(evaluation, layout),
    ...checkPart(layout, checks),
    ...listPart(layout, "Reasoning", reasoning),
    ...safetyPart(evaluation, layout),
  ];
}

function stabilityPart({ stability, stay }: SurveyEvaluation, layout: Layout): string[] {
  const { window, windows, worst, best, whole, allan } = stability;
  const row = (name: string, found: StabilityWindow): string[] => [
    name,
    showInstant(found.from),
    milli(found.halfRange),
    milli(found.standardDeviation),
    milli(found.slope * 3600),
    milli(found.fluctuation),
  ];
  return [
    ...tablePart(
      layout,
      `Stability: ${stay.thermometer} at ${stay.position} for ${duration(stay.to - stay.from)}, mK`,
      [
        ["", "left"],
        ["from", "left"],
        ["half-range", "point"],
        ["s", "point"],
        ["drift in 1 h", "point"],
        ["s about the drift", "point"],
      ],
      [
        row(`worst ${duration(window)} of ${windows}`, worst),
        row(`quietest ${duration(window)}`, best),
        row("whole stay", whole),
      ],
    ),
    ...tablePart(
      layout,
      "Effect of averaging: overlapping Allan deviation, mK",
      [
        ["averaged over", "right"],
        ["deviation", "point"],
        ["differences", "right"],
      ],
      allan.map(({ time, deviation, differences }) => [duration(time), milli(deviation), String(differences)]),
    ),
  ];
}

/** Every position against the reference position, and how its difference was found. */
function differencesPart({ map }: SurveyEvaluation, layout: Layout): string[] {
  return tablePart(
    layout,
    `Differences from ${map.reference.position} (depth ${plain(map.reference.depth)} mm, radius ${plain(map.reference.radius)} mm), mK`,
    [
      ["position", "left"],
      ["depth, mm", "right"],
      ["radius, mm", "right"],
      ["difference", "point"],
      ["u", "point"],
      ["ν", "right"],
      ["found by", "left"],
    ],
    map.points
      .filter((point) => point !== map.reference)
      .map((point) => {
        const by = map.comparisons
          .filter(({ position }) => position === point.position)
          .map(
            ({ pair, method, steps }) =>
              `${method === "swapped" ? "swapping" : "moving one of"} ${pair.join(", ")} (steps ${steps.map((step) => step + 1).join(", ")})`,
          );
        return [
          point.position,
          plain(point.depth),
          plain(point.radius),
          milli(point.difference),
          milli(point.standardUncertainty),
          plain(point.degreesOfFreedom, 3),
          by.join("; "),
        ];
      }),
  );
}

const offsetPart = ({ map }: SurveyEvaluation, layout: Layout): string[] =>
  tablePart(
    layout,
    "Offsets of the thermometers, which swapping cancels, mK",
    [
      ["pair", "left"],
      ["offset", "point"],
      ["u", "point"],
      ["from", "left"],
    ],
    map.offsets.map(({ pair, offset, standardUncertainty, from }) => [
      pair.join(" − "),
      milli(offset),
      milli(standardUncertainty),
      from,
    ]),
  );

const NAMES = { axial: "vertical (axial)", radial: "horizontal (radial)" } as const;
const zoneOf = (axis: "axial" | "radial", [from, to]: readonly [number, number]): string =>
  `${axis === "axial" ? "depths" : "radii"} ${plain(from)} mm to ${plain(to)} mm`;

const zonePart = ({ axial, radial }: SurveyEvaluation, layout: Layout): string[] =>
  tablePart(
    layout,
    "Over the zone, mK",
    [
      ["", "left"],
      ["zone", "left"],
      ["lowest", "point"],
      ["highest", "point"],
      ["half-width", "point"],
      ["about", "point"],
      ["largest u of a difference", "point"],
    ],
    [axial, radial].flatMap((found) =>
      found === null
        ? []
        : [
            [
              NAMES[found.axis],
              zoneOf(found.axis, found.zone),
              milli(found.limits.lowest),
              milli(found.limits.highest),
              milli(found.quantity.halfWidth),
              milli(found.quantity.estimate),
              milli(found.limits.noise),
            ],
          ],
    ),
  );

const smallerPart = ({ axial, radial }: SurveyEvaluation, layout: Layout): string[] =>
  tablePart(
    layout,
    "Gain from a smaller zone, mK",
    [
      ["", "left"],
      ["zone", "left"],
      ["half-width", "point"],
      ["gain", "point"],
    ],
    [axial, radial].flatMap((found) =>
      (found?.smaller ?? []).map(({ from, to, halfWidth, gain }) => [
        NAMES[found!.axis],
        zoneOf(found!.axis, [from, to]),
        milli(halfWidth),
        milli(gain),
      ]),
    ),
  );

function safetyPart({ safety }: SurveyEvaluation, layout: Layout): string[] {
  if (safety === null) return part(layout, "Work safely", ["The description names no bath: nothing could be judged."]);
  const { warnings, unknown, cautions } = safety;
  return listPart(layout, "Work safely", [
    ...warnings.map(({ place, warning, because }) => `Warning (${place}): ${warning}; ${because}.`),
    ...(unknown.length === 0 ? [] : [`Not judged: ${unknown.join("; ")}.`]),
    ...cautions,
  ]);
}
