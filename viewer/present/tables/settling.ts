import { fillText } from "../fill.ts";
import { overUnit } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import type { Label } from "../pictures/scene.ts";
import { FIGURES } from "../pictures/settling.ts";
import type { Readable } from "../readable.ts";
import type { Speech } from "../statement.ts";
import { figureCell, type Cell, type Column, type Row, type Table } from "./table.ts";

/** 2·s_z of each figure beside δ/5 (JCGM 101, 7.9.4). */
export function settlingTable({ symbol, unit, monteCarlo, settlingPlaces }: Readable, speech: Speech): Table {
  const { messages, numbers } = speech;
  const words = messages.settling;
  const { doubled, limit, points } = monteCarlo.settling;
  const last = points.at(-1);
  const at = (value: number | null | undefined): string =>
    value === null || value === undefined ? messages.none : numbers.fixed(value, settlingPlaces);
  const over = (label: Label): Label => [...(typeof label === "string" ? [label] : label), overUnit("", unit)];
  return {
    caption: labelOf(words.caption, { y: { symbol } }),
    columns: [
      { head: words.figure, kind: "head" },
      { head: overUnit(words.average, unit), kind: "number" },
      { head: over(labelOf(words.doubled, { s: { symbol: "s_z" } })), kind: "number" },
      { head: over(labelOf(words.limitHead, { delta: { symbol: "δ" } })), kind: "number" },
      { head: words.verdict, kind: "text" },
    ],
    rows: FIGURES.map((figure): Row => {
      const band = doubled[figure];
      return {
        head: words[figure],
        cells: [
          at(last?.averages[figure]),
          at(band),
          at(limit),
          band === null ? messages.notApplicable : band <= limit ? words.yes : words.no,
        ],
      };
    }),
  };
}

/** The course of each average over the batches, with its 2·s_z: what the pictures draw. */
export function settlingCourse(
  { unit, monteCarlo, settlingPlaces }: Readable,
  batch: number,
  { messages, numbers }: Speech,
): Table {
  const { settling: words, settlingPanel } = messages;
  const cell = (value: number | null): Cell =>
    figureCell(value === null ? messages.notApplicable : numbers.fixed(value, settlingPlaces), value);
  const doubled = labelOf(words.doubled, { s: { symbol: "s_z" } });
  return {
    caption: fillText(settlingPanel.numbers, { batch: numbers.whole(batch) }),
    columns: [
      { head: settlingPanel.trialsHead, kind: "head" },
      ...FIGURES.flatMap((figure): Column[] => [
        { head: overUnit(words[figure], unit), kind: "number" },
        { head: doubled, kind: "number" },
      ]),
    ],
    rows: monteCarlo.settling.points.map(({ trials, averages, doubled: bands }): Row => ({
      head: numbers.whole(trials),
      value: trials,
      cells: FIGURES.flatMap((figure) => [cell(averages[figure]), cell(bands[figure])]),
    })),
  };
}
