import type { CalibrationResult } from "../../models/index.ts";
import { en } from "../present/messages/en/index.ts";
import { ENGLISH } from "../present/statement.ts";
import {
  bandTable,
  calibrationConformityTable,
  calibrationCorrelationTable,
  calibrationPointsTable,
  calibrationRemarks,
  coefficientCorrelationTable,
  coefficientTable,
  fitSentences,
  repeatTable,
  scaleSentence,
  wholeConformity,
} from "../present/tables/calibration.ts";
import { zeroTable } from "../present/tables/zero-resistance.ts";
import { listPart, presentedPart, type Layout } from "./lines.ts";
import { wrap } from "./table.ts";

/** A calibration of one instrument for a terminal. */
export function calibrationLines(result: CalibrationResult, layout: Layout): string[] {
  const { styles, width } = layout;
  const { fit, instrument, description } = result;
  const whole = wholeConformity(result, ENGLISH);
  return [
    "",
    styles.bold(description === null ? instrument : `${instrument}  ${description}`),
    scaleSentence(result, ENGLISH, "R_0"),
    ...listPart(layout, en.sections.remarks, calibrationRemarks(result, ENGLISH)),
    ...presentedPart(layout, calibrationPointsTable(result, ENGLISH)),
    ...presentedPart(layout, repeatTable(result, ENGLISH)),
    ...presentedPart(layout, zeroTable(result, ENGLISH)),
    ...presentedPart(layout, calibrationConformityTable(result, ENGLISH)),
    ...(whole === null ? [] : ["", wrap(whole, width)]),
    ...presentedPart(layout, calibrationCorrelationTable(result, ENGLISH)),
    ...(fit === null
      ? []
      : [
          ...presentedPart(layout, coefficientTable(fit, ENGLISH)),
          ...presentedPart(layout, coefficientCorrelationTable(fit, ENGLISH)),
          ...presentedPart(layout, bandTable(result, fit, ENGLISH)),
          "",
          ...fitSentences(result, fit, ENGLISH).map((sentence) => wrap(sentence, width)),
        ]),
  ];
}
