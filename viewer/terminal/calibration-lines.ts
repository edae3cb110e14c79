import type { CalibrationResult } from "../../models/index.ts";
import { fillText } from "../present/fill.ts";
import { en } from "../present/messages/en/index.ts";
import { english } from "../present/numbers.ts";
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
  wholeConformity,
} from "../present/tables/calibration.ts";
import { listPart, presentedPart, type Layout } from "./lines.ts";
import { wrap } from "./table.ts";

const words = en.calibration;

/** A calibration of one instrument for a terminal. */
export function calibrationLines(result: CalibrationResult, layout: Layout): string[] {
  const { styles, width } = layout;
  const { fit, instrument, description, nominalResistance } = result;
  const whole = wholeConformity(result, ENGLISH);
  return [
    "",
    styles.bold(description === null ? instrument : `${instrument}  ${description}`),
    fillText(words.reference, { R0: "R_0", value: `${english.plain(nominalResistance)} Ω` }),
    ...listPart(layout, en.sections.remarks, calibrationRemarks(result, ENGLISH)),
    ...presentedPart(layout, calibrationPointsTable(result, ENGLISH)),
    ...presentedPart(layout, repeatTable(result, ENGLISH)),
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
