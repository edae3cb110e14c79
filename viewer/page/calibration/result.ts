import type { PreparedCalibration, CalibrationFound, CertificateForm } from "../../api/calibrations.ts";
import { fileOf } from "../api.ts";
import { writeAddress } from "../address.ts";
import { html, type Child } from "../draw/node.ts";
import { saveFile } from "../draw/save.ts";
import { sceneNode } from "../draw/scene.ts";
import { wideTable } from "../draw/table.ts";
import { messages, speech } from "../language.ts";
import { words as pageWords } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { bandScene } from "../../present/pictures/band.ts";
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
} from "../../present/tables/calibration.ts";
import type { Table } from "../../present/tables/table.ts";
import { zeroTable } from "../../present/tables/zero-resistance.ts";
import type { Follow } from "../files-room.ts";

const words = pageWords.calibrationRoom;
type Result = Parameters<typeof calibrationPointsTable>[0];

const FORMS: readonly (readonly [form: CertificateForm, ending: string])[] = [
  ["html", "html"],
  ["pdf", "pdf"],
  ["dcc", "xml"],
  ["json", "json"],
];

/** What a calibration found of one instrument, and its certificate. */
export function instrumentResult(
  prepared: PreparedCalibration,
  instrument: string,
  run: string,
  found: CalibrationFound,
  width: number,
  follow: Follow,
): HTMLElement {
  const result = found.result as unknown as Result;
  const { fit, description } = result;
  const id = partId(prepared, instrument);
  let tables = 0;
  const table = (of: Table): Child =>
    of.rows.length === 0 ? null : wideTable(of, `${id}-table-${++tables}`, instrument);
  const sentences = (of: readonly (string | null)[]): Child =>
    of.map((text) => (text === null ? null : html("p", {}, text)));
  return html(
    "section",
    { class: "calibrated", id, "aria-labelledby": `${id}-title` },
    html("h2", { id: `${id}-title` }, description === null ? instrument : `${instrument}: ${description}`),
    sentences(calibrationRemarks(result, speech)),
    table(calibrationPointsTable(result, speech)),
    table(repeatTable(result, speech)),
    table(zeroTable(result, speech)),
    table(calibrationConformityTable(result, speech)),
    sentences([wholeConformity(result, speech)]),
    fit === null
      ? null
      : [
          html("figure", {}, sceneNode(bandScene(result, fit, { width, height: 220 }, speech))),
          sentences(fitSentences(result, fit, speech)),
          table(coefficientTable(fit, speech)),
          table(coefficientCorrelationTable(fit, speech)),
          table(bandTable(result, fit, speech)),
        ],
    table(calibrationCorrelationTable(result, speech)),
    certificatePart(prepared, instrument, run, found, follow),
    html(
      "p",
      {},
      html("a", { href: writeAddress({ kind: "run", id: run, measurand: null }) }, fillText(words.run, { instrument })),
    ),
  );
}

/** Names what is shown of an instrument on the page. */
export const partId = ({ instruments }: PreparedCalibration, instrument: string): string =>
  `calibration-${instruments.findIndex(({ id }) => id === instrument) + 1}`;

/** An instrument's certificate: what it lacks, and its forms. */
export function certificatePart(
  prepared: PreparedCalibration,
  instrument: string,
  run: string,
  { lacking, openPoints }: CalibrationFound,
  { say, fail }: Follow,
): HTMLElement {
  const { calibration, reference } = prepared;
  const id = partId(prepared, instrument);
  const draft = lacking.length > 0 || openPoints.length > 0;
  const lacks = messages.calibrationCertificate.lacks;
  const language = messages.language;
  const make = async (form: CertificateForm, ending: string): Promise<void> => {
    say(words.making);
    try {
      const blob = await fileOf("api/calibrations/certificate", {
        calibration,
        reference,
        instrument,
        run,
        form,
        language,
      });
      const name = `${instrument.replaceAll(/[^\w.-]/g, "_")}-certificate.${ending}`;
      saveFile(name, blob);
      say(fillText(words.saved, { name }));
    } catch (error) {
      fail(words.notMade, error);
    }
  };
  return html(
    "section",
    { class: "certificate", id: `${id}-certificate-part`, "aria-labelledby": `${id}-title ${id}-certificate` },
    html("h3", { id: `${id}-certificate` }, words.certificate),
    draft
      ? [
          html("p", { class: "draft" }, words.draft),
          html(
            "ul",
            {},
            lacking.map((field) => html("li", {}, lacks[field as keyof typeof lacks] ?? field)),
            openPoints.map((number) =>
              html("li", {}, fillText(words.onPoint, { number: speech.numbers.whole(number) })),
            ),
          ),
          html("p", { id: `${id}-no-digital` }, words.noDigital),
        ]
      : html("p", {}, words.ready),
    html(
      "p",
      { class: "downloads" },
      FORMS.map(([form, ending]) => {
        const impossible = draft && form === "dcc";
        return html(
          "button",
          {
            type: "button",
            class: "quiet",
            id: `${id}-${form}`,
            disabled: impossible,
            "aria-describedby": impossible ? `${id}-no-digital` : null,
            onclick: () => void make(form, ending),
          },
          words[form],
        );
      }),
    ),
  );
}
