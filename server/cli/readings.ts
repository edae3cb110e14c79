import { refuse } from "../../engine/index.ts";
import {
  evaluateReadings,
  formatInstant,
  readDocument,
  readingsSchema,
  showInstant,
  type DriftEvaluation,
  type ProbeEvaluation,
  evaluateCertificate,
  type CertificateEvaluation,
  type OpenedCertificate,
} from "../../models/index.ts";
import { Fault } from "../errors.ts";
import { inFile } from "../intake/in-file.ts";
import { readIndications, readJson } from "../intake/index.ts";
import { driftOption } from "./certificate.ts";
import type { CommandRegistration } from "./command.ts";
import { certificateStatements, openCertificate, today } from "../intake/certificate-at.ts";
import { certificateAtLines, certificateLines } from "../../viewer/terminal/certificate-lines.ts";
import type { Layout } from "../../viewer/terminal/lines.ts";
import { conclude, EXIT_CODES, studyOptions, type Evaluated, type OutcomeFlags } from "./outcome.ts";
import { citedReadings } from "../intake/readings-evidence.ts";
import { probeLines } from "../../viewer/terminal/readings-lines.ts";
import { readingLine } from "./reading-line.ts";
import { watchFile } from "../intake/watched-file.ts";
import { watchLog } from "../intake/watched-log.ts";

interface ReadingsFlags extends OutcomeFlags {
  readonly certificate?: string;
  readonly on?: string;
  readonly drift?: DriftEvaluation["method"];
  readonly probe?: string;
}

export const readings: CommandRegistration = (program) => {
  const command = program
    .command("readings")
    .argument("<description>", "JSON: the log, the channel of the reference, and what the others measure")
    .summary("evaluate comparison readings: drift-corrected differences and their type A uncertainty")
    .description(
      "Evaluates a log of reference–probe–probe–reference readings (CSV or XLSX): differences free of linear drift, their type A uncertainty with its degrees of freedom, outlying values (flagged, never left out) and correlation. With the certificate of the reference, its correction and drift as well.",
    )
    .option("--probe <channel>", "the probe to evaluate, if the log has several")
    .option(
      "--certificate <file>",
      "certificate of the reference (JSON or XML), taken at the mean temperature of the readings",
    )
    .option("--on <date>", "day the certificate is used on, YYYY-MM-DD; default: the day of the readings, else today")
    .addOption(driftOption());
  studyOptions(command)
    .addHelpText(
      "after",
      `
The quantities are probeResistance (Ω), nominalResistance (Ω) and referenceReading (°C) for a probe read as a
resistance, else difference (K); with --certificate also referenceCertificate and referenceDrift (°C).

${EXIT_CODES}

Examples:
  trialband readings examples/survey/readings-72.json
  trialband readings examples/survey/readings-72.json --certificate examples/survey/reference-HR-02.json \\
    --study examples/harrowfen/pasteuriser-72.json --run`,
    )
    .action(async (file: string, flags: ReadingsFlags) => {
      process.exitCode = await conclude(await evaluated(file, flags), flags);
    });
};

async function evaluated(file: string, flags: ReadingsFlags): Promise<Evaluated> {
  const line = readingLine(process.stderr);
  try {
    const described = await watchFile(file);
    return await inFile(file, async () => {
      const description = readDocument(readingsSchema, await readJson(described.source));
      const logged = description.log === undefined ? null : await watchLog(file, description.log, line.onRead);
      const { indications, timed, notes } = await readIndications(description, logged?.open);
      const probes = evaluateReadings(description, indications, timed);
      const chosen = choose(probes, flags.probe);
      const files = [described.trace(), ...(logged?.traces() ?? [])];
      const reference = await referenceOf(chosen ?? probes[0]!, flags);
      return {
        name: file,
        evaluation: {
          files,
          title: description.title,
          probes,
          certificate: reference?.opened.certificate ?? null,
          atReading: reference?.evaluation ?? null,
        },
        lines: (layout: Layout) => [
          layout.styles.bold(description.title),
          ...files.map(({ name, sha256 }) => layout.styles.dim(`${name}  SHA-256 ${sha256}`)),
          ...notes,
          ...probes
            .filter((probe) => flags.probe === undefined || probe === chosen)
            .flatMap((probe) => probeLines(probe, layout)),
          ...(reference === null
            ? []
            : ["", ...certificateLines(reference.opened, layout), ...certificateAtLines(reference.evaluation, layout)]),
        ],
        statements: () => ({
          ...citedReadings(chosen ?? several(probes, flags), files),
          ...(reference === null
            ? {}
            : certificateStatements(reference.opened.certificate, reference.evaluation, reference.opened.file)),
        }),
        units: {
          probeResistance: "Ω",
          nominalResistance: "Ω",
          referenceReading: "°C",
          difference: "K",
          referenceCertificate: "°C",
          referenceDrift: "°C",
        },
      };
    });
  } finally {
    line.clear();
  }
}

/** The named probe, or the only one; `null` if there are several and none is named. @throws {InputError} */
function choose(probes: readonly ProbeEvaluation[], name: string | undefined): ProbeEvaluation | null {
  if (name === undefined) return probes.length === 1 ? probes[0]! : null;
  return (
    probes.find(({ probe }) => probe === name) ??
    refuse("--probe", name, `one of ${probes.map(({ probe }) => probe).join(", ")}`)
  );
}

/** Several probes make no statements together: a study needs one to be named. */
function several(probes: readonly ProbeEvaluation[], { study }: ReadingsFlags): null {
  if (study === undefined) return null;
  throw new Fault("bad-input", "A study is of one probe.", [
    { place: "--probe", value: "nothing", accepted: `one of ${probes.map(({ probe }) => probe).join(", ")}` },
  ]);
}

async function referenceOf(
  probe: ProbeEvaluation,
  { certificate: path, on, drift }: ReadingsFlags,
): Promise<{ readonly opened: OpenedCertificate; readonly evaluation: CertificateEvaluation } | null> {
  if (path === undefined) {
    if (drift === undefined) return null;
    throw new Fault("bad-input", "Drift is evaluated from a certificate.", [
      { place: "--certificate", value: "nothing", accepted: "the file of a certificate" },
    ]);
  }
  const watched = await watchFile(path);
  return inFile(path, async () => {
    const opened = await openCertificate(watched, path, {});
    const { thermometer } = opened.certificate;
    if (thermometer !== probe.reference)
      refuse("thermometer", thermometer, `the certificate of ${probe.reference}, the reference of the readings`);
    return {
      opened,
      evaluation: evaluateCertificate(opened.certificate, probe.referenceMean, on ?? dayOf(probe), drift),
    };
  });
}

/** Day of the last reading, or today if the log counts from 0. */
function dayOf({ sequence }: ProbeEvaluation): string {
  const { to } = sequence.cycles.at(-1)!;
  return showInstant(to) === formatInstant(to) ? formatInstant(to).slice(0, 10) : today();
}
