import { InvalidArgumentError, Option } from "commander";
import { validityOf, type DriftEvaluation, type DsiMapping, evaluateCertificate } from "../../models/index.ts";
import { Fault } from "../errors.ts";
import { inFile } from "../intake/in-file.ts";
import type { CommandRegistration } from "./command.ts";
import { certificateStatements, openCertificate, today, type CertificateRequest } from "../intake/certificate-at.ts";
import { certificateAtLines, certificateLines, validityLines } from "../../viewer/terminal/certificate-lines.ts";
import type { Layout } from "../../viewer/terminal/lines.ts";
import { conclude, EXIT_CODES, studyOptions, type Evaluated, type OutcomeFlags } from "./outcome.ts";
import { watchFile } from "../intake/watched-file.ts";

interface CertificateFlags extends OutcomeFlags {
  readonly at?: number;
  readonly on?: string;
  readonly drift?: DriftEvaluation["method"];
  readonly thermometer?: string;
  readonly calibrated?: string;
  readonly part?: Partial<DsiMapping>;
}

export const certificate: CommandRegistration = (program) => {
  const command = program
    .command("certificate")
    .argument("<file>", "certificate of a reference: JSON, or the XML of a Digital Calibration Certificate")
    .summary("read the certificate of a reference: correction, uncertainty and drift at a temperature")
    .description(
      "Reads the certificate of a reference thermometer and prints its correction and uncertainty at a temperature, its drift from its earlier calibrations, and whether the next calibration is overdue.",
    )
    .option("--at <°C>", "temperature of use; without it, the points and the age are printed", temperatureOption)
    .option("--on <date>", "day of use, YYYY-MM-DD; default: today")
    .addOption(driftOption())
    .option("--thermometer <serial>", "serial, if an XML certificate states none or several")
    .option("--calibrated <date>", "day of the calibration, if an XML certificate does not state it")
    .option(
      "--part <role=number>",
      "which quantity of an XML certificate is the temperature, the error or the correction, counted from 0; may be repeated",
      partOption,
    );
  studyOptions(command)
    .addHelpText(
      "after",
      `
The quantities are referenceCertificate, referenceDrift and, between two points of three or more, referenceInterpolation,
in °C; they need --at.

${EXIT_CODES}

Examples:
  trialband certificate examples/survey/reference-HR-02.json --at 72
  trialband certificate examples/survey/reference-HR-02.xml --at 4 --on 2026-03-02
  trialband certificate HR-02.json --at 72 --drift rate --study my-study.json --out newer.json`,
    )
    .action(async (file: string, flags: CertificateFlags) => {
      process.exitCode = await conclude(await evaluated(file, flags), flags);
    });
};

export const driftOption = (): Option =>
  new Option(
    "--drift <method>",
    "bounds: the largest change between calibrations either way; rate: a line through them (default: bounds, if there is a history)",
  ).choices(["bounds", "rate"]);

export function temperatureOption(text: string): number {
  const value = Number(text.replace("−", "-"));
  if (text.trim() === "" || !Number.isFinite(value))
    throw new InvalidArgumentError("Expected a temperature in °C, such as 72 or -40.");
  return value;
}

function partOption(text: string, before: Partial<DsiMapping> = {}): Partial<DsiMapping> {
  const [role, index] = text.split("=");
  if (!/^(temperature|error|correction)$/.test(role!) || !/^\d+$/.test(index ?? "")) {
    throw new InvalidArgumentError("Expected temperature=N, error=N or correction=N with N counted from 0.");
  }
  return { ...before, [role!]: Number(index) };
}

async function evaluated(
  file: string,
  { at, on = today(), drift, thermometer, calibrated, part, ...outcome }: CertificateFlags,
): Promise<Evaluated> {
  if (at === undefined && (outcome.study !== undefined || drift !== undefined)) {
    throw new Fault("bad-input", "A study needs the certificate at one temperature.", [
      { place: "--at", value: "nothing", accepted: "a temperature in °C" },
    ]);
  }
  const watched = await watchFile(file);
  const request: CertificateRequest = { thermometer, calibrated, parts: part };
  return inFile(file, async () => {
    const opened = await openCertificate(watched, file, request);
    const evaluation = at === undefined ? null : evaluateCertificate(opened.certificate, at, on, drift);
    const validity = validityOf(opened.certificate, on);
    return {
      name: file,
      evaluation: {
        file: opened.file,
        certificate: opened.certificate,
        reasoning: opened.reasoning,
        validity,
        ...evaluation,
      },
      lines: (layout: Layout) => [
        ...certificateLines(opened, layout),
        ...(evaluation !== null ? certificateAtLines(evaluation, layout) : validityLines(validity, layout)),
      ],
      statements: () => (evaluation === null ? {} : certificateStatements(opened.certificate, evaluation, opened.file)),
      units: { referenceCertificate: "°C", referenceDrift: "°C", referenceInterpolation: "°C" },
    };
  });
}
