import { join } from "node:path";
import { InvalidArgumentError, type Command } from "commander";
import { certificateFieldsOf, type CalibrationResult } from "../../models/index.ts";
import { certificateOf, type Certificate } from "../../viewer/present/certificate/certificate.ts";
import { languages, type Language } from "../../viewer/present/messages/index.ts";
import { certificateHtml } from "../../viewer/report/certificate-html.ts";
import { dccOf } from "../export/certificate/dcc.ts";
import { certificateJson } from "../export/certificate/json.ts";
import type { LoadedCalibration } from "../intake/calibration.ts";
import { openOutput, type OutputFile } from "../output-file.ts";
import { recordDigest } from "../record/open.ts";
import type { SealedRecord } from "../record/seal.ts";
import { findChromium, printToPdf } from "../report/chromium.ts";

const FORMS = { html: "html", pdf: "pdf", dcc: "xml", json: "json" } as const;
type Form = keyof typeof FORMS;

export interface CertificateFlags {
  readonly certificates?: string;
  readonly forms: readonly Form[];
  readonly language: Language;
}

export const certificateOptions = (command: Command): Command =>
  command
    .option(
      "--certificates <folder>",
      "write each instrument's certificate into a folder that exists, named by the instrument",
    )
    .option(
      "--forms <list>",
      `forms of the certificates, of ${Object.keys(FORMS).join(", ")}; dcc is the digital calibration certificate (XML)`,
      formsOption,
      ["html", "json", "dcc"],
    );

function formsOption(text: string): Form[] {
  const forms = text.split(",").map((form) => form.trim());
  if (!forms.every((form): form is Form => Object.hasOwn(FORMS, form)) || forms.length === 0)
    throw new InvalidArgumentError(`got ${text}; expected some of ${Object.keys(FORMS).join(", ")}, with commas`);
  return [...new Set(forms)];
}

/** A designation as a part of a file's name. */
export const asFileName = (id: string): string => id.replaceAll(/[^\w.-]/g, "_");

export interface CertificateOutput {
  readonly id: string;
  readonly form: Form;
  readonly file: OutputFile;
}

/** Opens the files before the first run, so that a place that cannot be written to costs no result. @throws {Fault} */
export async function openCertificates(
  ids: readonly string[],
  { certificates, forms }: CertificateFlags,
): Promise<readonly CertificateOutput[]> {
  if (certificates === undefined) return [];
  if (forms.includes("pdf")) findChromium();
  return Promise.all(
    ids.flatMap((id) =>
      forms.map(async (form) => ({
        id,
        form,
        file: await openOutput(join(certificates, `${asFileName(id)}-certificate.${FORMS[form]}`), "The certificate"),
      })),
    ),
  );
}

/**
 * Writes the certificates. A draft is written for people, marked as one, and never for machines.
 *
 * @returns the drafts among them
 */
export async function writeCertificates(
  outputs: readonly CertificateOutput[],
  loaded: LoadedCalibration,
  runs: readonly { readonly result: CalibrationResult; readonly record: SealedRecord }[],
  language: Language,
): Promise<readonly Certificate[]> {
  const all = runs.map(({ result, record }) =>
    certificateOf(
      loaded.calibration,
      certificateFieldsOf(loaded.calibration, result.instrument),
      result,
      record,
      recordDigest(record),
    ),
  );
  for (const { id, form, file } of outputs) {
    const certificate = all.find(({ instrument }) => instrument === id)!;
    const html = (paper?: "A4"): string =>
      certificateHtml(certificate, loaded.reference, languages[language], paper ?? null);
    if (form === "html") await file.write(html());
    else if (form === "pdf") await file.write(await printToPdf(html("A4"), findChromium()));
    else if (form === "json") await file.write(certificateJson(certificate, loaded.reference));
    else if (!certificate.draft) await file.write(dccOf(certificate, loaded.reference));
  }
  return outputs.length === 0 ? [] : all.filter(({ draft }) => draft);
}

/** What a draft lacks, for a terminal. */
export const draftLines = (drafts: readonly Certificate[]): string =>
  drafts
    .map(({ instrument, lacking }) => {
      const words = languages.en.calibrationCertificate;
      return [
        `${instrument}: the certificate is a draft, and no digital calibration certificate is written. It lacks:`,
        ...lacking.fields.map(({ field, place }) => `  ${words.lacks[field]} (${place})`),
        ...lacking.points.map((number) => `  a result that can be stated at point ${number}`),
        "",
      ].join("\n");
    })
    .join("");
