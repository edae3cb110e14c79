import type { RunRecord } from "../../engine/index.ts";
import { fillText } from "../present/fill.ts";
import { dividedBy, overUnit, withUnit } from "../present/numbers.ts";
import { addUp, drawnContributions } from "../present/pictures/contributions-of.ts";
import { labelOf, labelText } from "../present/pictures/label.ts";
import type { Readable } from "../present/readable.ts";
import type { Speech } from "../present/statement.ts";
import { displayWidth, tableLines, wrap } from "./table.ts";

/** Columns of the longest bar at least and at most. */
const BAR = { least: 8, most: 48 } as const;

/** Parts of a full mark, in eighths. */
const EIGHTHS = ["", "▏", "▎", "▍", "▌", "▋", "▊", "▉"] as const;

/** A bar of so many columns; what is there at all has a mark. */
function bar(columns: number): string {
  const eighths = Math.max(1, Math.round(8 * columns));
  return "█".repeat(Math.floor(eighths / 8)) + EIGHTHS[eighths % 8]!;
}

/**
 * The contributions of a budget as bars, the largest first, with the cumulative share of u²; without that share if inputs
 * are correlated, since shares then do not add up. Nothing if fewer than two inputs contribute.
 */
export function contributionLines(
  record: Pick<RunRecord, "inputs">,
  measurand: Readable,
  speech: Speech,
  width: number,
): string[] {
  const { messages, numbers } = speech;
  const words = messages.budget;
  const drawn = drawnContributions(record, measurand, speech);
  if (drawn === null) return [];
  const y = measurand.symbol;
  const cumulative = addUp(measurand);
  const most = drawn[0]!.size;
  let sum = 0;
  const reached = drawn.map(({ share }) => numbers.fixed(100 * Math.min(1, (sum += share)), 1));
  const heads = {
    below: labelText(
      labelOf(words.pictureBelow, {
        c: { symbol: "c_i" },
        u: { symbol: "u" },
        x: { symbol: "x_i" },
        unit: dividedBy(measurand.unit),
      }),
    ),
    above: fillText(words.pictureAbove, { u: "u", y }),
  };
  const drawnWith = (longest: number): string[] =>
    tableLines(
      [
        { heading: words.quantity, align: "left" },
        { heading: "", align: "left" },
        { heading: heads.below, align: "right" },
        ...(cumulative ? [{ heading: heads.above, align: "right" } as const] : []),
      ],
      drawn.map(({ label, size, text }, i) => [
        labelText(label),
        // No-break spaces keep the bars of all widths alike.
        bar((longest * size) / most).padEnd(longest, "\u00a0"),
        text,
        ...(cumulative ? [reached[i]!] : []),
      ]),
      width,
    ).map((line) => line.replaceAll("\u00a0", " "));
  // A table that is too wide for its longest bar is so by as many columns as the bar gives up.
  const excess = Math.max(0, Math.max(...drawnWith(BAR.most).map(displayWidth)) - width);
  const longest = Math.max(BAR.least, BAR.most - excess);
  const caption = cumulative ? words.barsCaption : words.pictureCorrelated;
  return [...wrap(fillText(caption, { u: "u", y }), width).split("\n"), ...drawnWith(longest)];
}

/** Marks of δ at one and at two digits. */
const EDGES = [
  ["[", "]"],
  ["(", ")"],
] as const;

/**
 * The endpoints of the trials less those of the budget, with ± 2 standard errors, on a scale with δ at one and at two
 * significant digits: the budget is validated at the digits within whose marks both lie (JCGM 101, 8.1). A mark never lies
 * on the wrong side of an edge for being rounded to a column. Nothing if δ is 0.
 */
export function digitsLines(
  { coverage }: Pick<RunRecord, "coverage">,
  { linear, monteCarlo, validation, unit, places, symbol }: Readable,
  { messages, numbers }: Speech,
  width: number,
): string[] {
  const words = messages.validation;
  if (validation.numericalTolerance === 0) return [];
  const interval = monteCarlo.intervals[coverage.interval];
  const errors = monteCarlo.standardErrors[coverage.interval];
  /** As many decimals as the finer of the two tolerances has. */
  const decimals = validation.significantDigits < 2 ? places + 1 : places;
  const tolerances = validation.atDigits
    .toSorted((a, b) => a.significantDigits - b.significantDigits)
    .map(({ significantDigits, numericalTolerance: value }) => ({
      value,
      digits: significantDigits === 1 ? words.oneDigit : words.twoDigits,
      text: numbers.fixed(value, decimals),
    }));
  const rows = ([0, 1] as const).map((end) => ({
    label: end === 0 ? messages.monteCarlo.low : messages.monteCarlo.high,
    difference: interval[end] - linear.interval[end],
    reach: 2 * (errors?.[end] ?? 0),
  }));
  const figures = rows.map(({ difference }) => numbers.fixed(difference, decimals));
  const labels = Math.max(...rows.map(({ label }) => displayWidth(label)));
  const half = Math.max(8, Math.floor((width - labels - Math.max(...figures.map(displayWidth)) - 5) / 2));
  const far = Math.max(
    ...tolerances.map(({ value }) => 1.15 * value),
    ...rows.map(({ difference, reach }) => 1.05 * (Math.abs(difference) + reach)),
  );
  /** The column of a value, the middle one being that of 0. */
  const at = (value: number): number => half + Math.round((half * value) / far);
  /** Columns from 0 to each edge; between two there is room for a mark, however far out the endpoints lie. */
  const edges: number[] = [];
  for (let i = tolerances.length - 1, least = 1; i >= 0; i--) {
    edges[i] = Math.max(least, at(tolerances[i]!.value) - half);
    least = edges[i]! + 2;
  }
  /** The column of a mark: beside an edge's own, on the side where the difference lies. */
  const place = (difference: number): number => {
    let from = Math.abs(at(difference) - half);
    for (const [i, edge] of edges.entries()) {
      const within = Math.abs(difference) <= tolerances[i]!.value;
      if (within && from >= edge) from = edge - 1;
      else if (!within && from <= edge) from = edge + 1;
    }
    return half + Math.sign(difference) * from;
  };
  const scale = (marks: (cells: string[]) => void): string => {
    const cells = Array.from({ length: 2 * half + 1 }, () => " ");
    cells[half] = "|";
    marks(cells);
    return cells.join("");
  };
  const edged = (cells: string[]): void =>
    edges.forEach((edge, i) => {
      cells[half - edge] = EDGES[i]![0];
      cells[half + edge] = EDGES[i]![1];
    });
  const line = (label: string, cells: string, figure: string): string =>
    `${label}${" ".repeat(labels - displayWidth(label))}  ${cells}  ${figure}`.trimEnd();
  return [
    ...wrap(fillText(words.digitsCaption, { delta: "δ", u: "u", y: symbol }), width).split("\n"),
    ...rows.map(({ label, difference, reach }, i) =>
      line(
        label,
        scale((cells) => {
          if (reach > 0) cells.fill("─", at(difference - reach), at(difference + reach) + 1);
          edged(cells);
          cells[place(difference)] = "●";
        }),
        figures[i]!,
      ),
    ),
    ...tolerances.flatMap(({ digits, text }, i) =>
      legend(
        EDGES[i]!.join(" "),
        fillText(words.digitsTolerance, { delta: "δ", digits, value: withUnit(text, unit) }),
        width,
      ),
    ),
    ...legend("|", overUnit(messages.endpointsPanel.distance, unit), width),
  ];
}

const legend = (mark: string, meaning: string, width: number): string[] =>
  wrap(meaning, width - 5)
    .split("\n")
    .map((line, i) => `${(i === 0 ? mark : "").padEnd(3)}  ${line}`);
