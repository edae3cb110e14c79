import { refuse, show } from "../../engine/index.ts";
import type { EvidenceKind } from "../../viewer/api/evidence.ts";
import type { OpenedEvidence } from "../../viewer/api/evidence-evaluation.ts";
import { openCertificate } from "../intake/certificate-at.ts";
import { inFile } from "../intake/in-file.ts";
import { parseJson } from "../intake/json.ts";
import { watchBytes } from "./surveys.ts";

/** Fields that show what a description is: the first that it has decides. */
const SHOWS: readonly (readonly [string, EvidenceKind])[] = [
  ["steps", "survey"],
  ["channels", "readings"],
  ["planned", "immersion"],
  ["points", "certificate"],
];

/**
 * A file as the command line takes it, as the draft that a form goes on with: what it says is judged when it is evaluated.
 *
 * @throws {Fault} `not-json` or `bad-input`: a file that is none of these
 */
export function openEvidence(name: string, bytes: Buffer): Promise<OpenedEvidence> {
  return inFile(name, async (): Promise<OpenedEvidence> => {
    if (/\.xml$/i.test(name)) {
      const { certificate, reasoning } = await openCertificate(watchBytes(name, bytes), name, {});
      return { kind: "certificate", document: { ...certificate }, reasoning };
    }
    const document = parseJson(bytes, name);
    const kind =
      typeof document === "object" && document !== null && !Array.isArray(document)
        ? SHOWS.find(([field]) => Object.hasOwn(document, field))?.[1]
        : undefined;
    if (kind === undefined)
      return refuse(
        "",
        show(document).slice(0, 80),
        "readings of a comparison, an immersion check or a certificate, as a form of this page or the command line writes it",
      );
    const { $schema: _, ...own } = document as Record<string, unknown>;
    return { kind, document: own, reasoning: [] };
  });
}
