import { showInstant, type ProbeEvaluation } from "../../models/index.ts";
import { en } from "../present/messages/en/index.ts";
import { english } from "../present/numbers.ts";
import { checkPart, listPart, milli, plain, tablePart, type Layout } from "./lines.ts";

/** One probe's evaluation for a terminal. */
export function probeLines(
  { probe, reference, sequence, typeA, referenceMean, checks, reasoning }: ProbeEvaluation,
  layout: Layout,
): string[] {
  return [
    ...tablePart(
      layout,
      `${probe} against ${reference}: differences cycle by cycle`,
      [
        ["cycle", "right"],
        ["from", "left"],
        [`${reference}, °C`, "point"],
        ["difference, mK", "point"],
        ["drift in 1 min, mK", "point"],
        ["", "left"],
      ],
      sequence.cycles.map(({ from, reference: at, difference, drift }, i) => [
        String(i + 1),
        showInstant(from),
        english.fixed(at, 5),
        milli(difference),
        milli(60 * drift),
        typeA.outliers.flagged.includes(i) ? "check this cycle" : "",
      ]),
    ),
    ...tablePart(
      layout,
      "Their mean, mK",
      [
        ["difference", "point"],
        ["s of a cycle", "point"],
        ["u of the mean", "point"],
        ["ν", "right"],
        ["effective number", "right"],
        ["dispersion from", "left"],
        [`mean of ${reference}, °C`, "point"],
      ],
      [
        [
          milli(typeA.mean),
          milli(typeA.standardDeviation),
          milli(typeA.standardUncertainty),
          plain(typeA.degreesOfFreedom, 3),
          `${plain(typeA.effectiveCount, 3)} of ${typeA.count}`,
          typeA.basis,
          english.fixed(referenceMean, 5),
        ],
      ],
    ),
    ...checkPart(layout, checks),
    ...listPart(layout, en.survey.reasoning, reasoning),
  ];
}
