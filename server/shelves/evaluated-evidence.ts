import { InputError, refuse, type Statement } from "../../engine/index.ts";
import {
  certificateSchema,
  evaluateCertificate,
  evaluateImmersion,
  evaluateReadings,
  immersionSchema,
  readDocument,
  readingsSchema,
  type ProbeEvaluation,
} from "../../models/index.ts";
import type { EvaluatedEvidence, EvidenceUse, FormKind } from "../../viewer/api/evidence-evaluation.ts";
import { certificateStatements, today } from "../intake/certificate-at.ts";
import { citedImmersion } from "../intake/immersion-evidence.ts";
import { inFile } from "../intake/in-file.ts";
import { readIndications } from "../intake/load.ts";
import { citedReadings } from "../intake/readings-evidence.ts";
import { watchedLog } from "../intake/watched-log.ts";
import type { EvidenceContent } from "../store/evidence.ts";
import { opener, titleOf, watchDescription, type KeptFiles } from "./own-evidence.ts";

/** Statements by quantity, each with the unit it is in. */
type Stated = EvaluatedEvidence["statements"];

/** The unit of each quantity that evidence may state. */
const UNITS: Readonly<Record<string, string>> = {
  difference: "K",
  probeResistance: "Ω",
  nominalResistance: "Ω",
  referenceReading: "°C",
  immersion: "K",
  referenceCertificate: "K",
  referenceInterpolation: "K",
  referenceDrift: "K",
};

/**
 * Evaluates readings, an immersion check or a certificate of one's own.
 *
 * @throws {Fault} `bad-input`, with every problem by its field
 */
export function evaluateEvidence(
  kind: FormKind,
  content: Pick<EvidenceContent, "document" | "files">,
  use: EvidenceUse,
  store: KeptFiles,
): Promise<EvaluatedEvidence> {
  const described = watchDescription({ ...content, title: titleOf(content.document, kind) });
  const file = described.trace();
  const { document } = content;
  return inFile(file.name, async (): Promise<EvaluatedEvidence> => {
    switch (kind) {
      case "readings": {
        const description = readDocument(readingsSchema, document);
        const logged = watchedLog(opener(content, store));
        const { indications, timed, notes } = await readIndications(description, logged.open);
        const probes = evaluateReadings(description, indications, timed);
        const files = [file, ...logged.traces()];
        const stated = statedOr(() => citedReadings(chosenProbe(probes, use.probe), files));
        return { kind, files, notes, probes, ...stated };
      }
      case "immersion": {
        const description = readDocument(immersionSchema, document);
        const immersion = evaluateImmersion(description);
        const stated = statedOr(() => citedImmersion(immersion, description, file, use.distribution ?? "rectangular"));
        return { kind, files: [file], notes: [], immersion, ...stated };
      }
      case "certificate": {
        const read = readDocument(certificateSchema, document);
        if (use.temperature === undefined)
          return { kind, files: [file], notes: [], certificate: null, statements: {}, notStated: null };
        const evaluated = evaluateCertificate(read, use.temperature, use.on ?? today(), use.drift);
        const { value } = evaluated;
        const certificate = {
          ...evaluated,
          value: {
            ...value,
            degreesOfFreedom: Number.isFinite(value.degreesOfFreedom) ? value.degreesOfFreedom : null,
          },
        };
        const stated = statedOr(() => certificateStatements(read, evaluated, file));
        return { kind, files: [file], notes: [], certificate, ...stated };
      }
    }
  });
}

/** The named probe, or the only one; `null` if there are several. @throws {InputError} a name of none */
function chosenProbe(probes: readonly ProbeEvaluation[], name: string | undefined): ProbeEvaluation | null {
  if (name === undefined) return probes.length === 1 ? probes[0]! : null;
  return (
    probes.find(({ probe }) => probe === name) ??
    refuse("probe", name, `one of ${probes.map(({ probe }) => probe).join(", ")}`)
  );
}

/** What can be stated, or why nothing can: an evaluation without a statement is worth seeing all the same. */
function statedOr(
  make: () => Readonly<Record<string, Statement>>,
): Pick<EvaluatedEvidence, "statements" | "notStated"> {
  try {
    const statements: Stated = Object.fromEntries(
      Object.entries(make()).map(([name, statement]) => [name, { statement: { ...statement }, unit: UNITS[name]! }]),
    );
    return { statements, notStated: null };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { statements: {}, notStated: error.message };
  }
}
