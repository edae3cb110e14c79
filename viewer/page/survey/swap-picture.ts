import { axisBelow, scaleOver } from "../draw/axis.ts";
import { svg, type Child } from "../draw/node.ts";
import { fillText } from "../../present/fill.ts";
import { messages } from "../language.ts";
import { decimalsFor } from "../../present/numbers.ts";
import { inMilli } from "./figures.ts";
import { pointReader, readRing } from "./point-reader.ts";

/** One determination: a value with its standard uncertainty, K. */
export interface Determination {
  readonly label: string;
  readonly value: number;
  readonly standardUncertainty: number;
  /** Filled where the pair was swapped, open where one thermometer was moved or both stood together. */
  readonly swapped: boolean;
  readonly words: string;
}

export interface DeterminationPicture {
  readonly id: string;
  readonly name: string;
  readonly title: string;
  readonly rows: readonly Determination[];
  /** Drawn as a dotted line, with its word: the zero of differences, the mean of offsets. */
  readonly line: { readonly at: number; readonly word: string };
  readonly width: number;
}

const TOP = 34;
const ROW = 30;

/** Determinations one below the other, each with a bar of ± 2u and its figure. */
export function determinationPicture({ id, name, title, rows, line, width }: DeterminationPicture): HTMLElement {
  const ends = rows.flatMap(({ value, standardUncertainty: u }) => [value - 2 * u, value + 2 * u]);
  const [least, most] = [Math.min(...ends, line.at), Math.max(...ends, line.at)];
  const margin = 0.12 * (most - least) || 1e-4;
  const left = 16 + 6.3 * Math.max(...rows.map(({ label }) => label.length));
  const figures = 62;
  const x = scaleOver([1000 * (least - margin), 1000 * (most + margin)], [left, width - figures]);
  const at = (kelvin: number): number => x(1000 * kelvin);
  // As many places as the determinations differ in.
  const places = Math.max(
    0,
    decimalsFor(1000 * Math.min(...rows.map(({ standardUncertainty }) => standardUncertainty)), 1),
  );
  const bottom = TOP + ROW * rows.length;
  const height = bottom + 42;
  const marks = rows.map(({ value }, i) => ({ x: at(value), y: TOP + ROW * (i + 0.5) }));
  const ring = svg("circle", { class: "cursor" });
  const picture = svg(
    "svg",
    { class: "determinations", width, height, viewBox: `0 0 ${width} ${height}`, role: "img", "aria-label": name },
    svg("path", { class: "limit", d: `M${at(line.at)} ${TOP - 6}V${bottom}` }),
    svg(
      "text",
      {
        class: "axis-title",
        x: at(line.at),
        y: TOP - 12,
        "text-anchor": at(line.at) > width - figures - 60 ? "end" : at(line.at) < left + 40 ? "start" : "middle",
      },
      line.word,
    ),
    rows.map(({ label, value, standardUncertainty: u, swapped }, i): Child => {
      const { y } = marks[i]!;
      const [from, to] = [at(value - 2 * u), at(value + 2 * u)];
      return svg(
        "g",
        {},
        svg("path", { class: "row-line", d: `M${left} ${y}H${width - figures}` }),
        svg("text", { x: left - 10, y: y + 4, "text-anchor": "end" }, label),
        // A bar that is narrower than the mark would only blur its edge.
        to - from > 14
          ? svg("path", { class: "distance", d: `M${from} ${y}H${to}M${from} ${y - 6}v12M${to} ${y - 6}v12` })
          : null,
        swapped
          ? svg("circle", { class: "zone-warmer", cx: at(value), cy: y, r: 4.5 })
          : svg("rect", { class: "zone-colder", x: at(value) - 4, y: y - 4, width: 8, height: 8 }),
        svg(
          "text",
          { class: "strong", x: width, y: y + 4, "text-anchor": "end" },
          `${value > 0 ? "+" : ""}${inMilli(value, places)}`,
        ),
      );
    }),
    ring,
    axisBelow(x, bottom, width),
    svg(
      "text",
      { class: "axis-title", x: (left + width - figures) / 2, y: height - 4, "text-anchor": "middle" },
      title,
    ),
  );
  return pointReader({
    id,
    picture,
    width,
    height,
    points: marks,
    label: fillText(messages.surveyPanels.readOne, { title }),
    hint: messages.reading.hint,
    tell: (i) => rows[i]!.words,
    mark: (i) => readRing(ring, i === null ? undefined : marks[i]),
  });
}
