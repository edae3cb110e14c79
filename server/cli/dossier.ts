import { createHash } from "node:crypto";
import { readdir, readFile, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import { makeDossier } from "../dossier/make.ts";
import { evidenceOf, type EvidenceFile } from "../dossier/contents.ts";
import { Fault } from "../errors.ts";
import { readNamed } from "../intake/named-file.ts";
import { openOutput, withOutputs } from "../output-file.ts";
import { openRecord } from "../record/open.ts";
import type { CommandRegistration } from "./command.ts";
import { print } from "./print.ts";
import { harmlessText } from "../../viewer/terminal/harmless.ts";

export interface DossierFlags {
  readonly out: string;
  readonly evidence?: readonly string[];
  readonly today?: Date;
}

/** Files of a folder that are looked at for evidence, and the largest of them. */
const MOST_LOOKED_AT = 2000;
const LARGEST = 256 * 1024 * 1024;

export const dossier: CommandRegistration = (program) => {
  program
    .command("dossier")
    .argument("<record>", "record file, as run --out writes it")
    .summary("put everything behind a result into one file")
    .description(
      "Writes one ZIP file with the record, its study and signature, the logs and certificates that the study rests on, the reports in both languages, the software's version and how to verify it all: a bag as RFC 8493 (BagIt) describes it. trialband verify checks it.",
    )
    .requiredOption("--out <file>", "the ZIP file to write")
    .option(
      "--evidence <folder...>",
      "folders with the logs and certificates; they are known by their digests. Without it, the folder of the record is searched",
    )
    .addHelpText(
      "after",
      "\nExample:\n  trialband dossier record.json --evidence logs certificates --out dossier.zip && trialband verify dossier.zip",
    )
    .action(async (file: string, flags: DossierFlags) => dossierCommand(file, flags));
};

/** @throws {Fault} no record, or an altered one; a folder that cannot be read; a place that cannot be written to */
export async function dossierCommand(file: string, flags: DossierFlags): Promise<void> {
  const content = await readNamed(file, LARGEST);
  const { record } = openRecord(content, file);
  const wanted = evidenceOf(record);
  const found = await evidenceIn(flags.evidence ?? [dirname(file)], wanted);
  const signature = await readFile(`${file}.sig`).catch((error: NodeJS.ErrnoException) => {
    if (error.code === "ENOENT") return undefined;
    throw new Fault("no-such-file", `${file}.sig cannot be read: ${error.message}`);
  });
  const output = await openOutput(flags.out, "The dossier");
  await withOutputs([output], async () => {
    const { bytes, missing } = await makeDossier(content, file, {
      ...(signature === undefined ? {} : { signature }),
      evidence: async ({ sha256 }) => found.get(sha256) ?? null,
      today: flags.today ?? new Date(),
    });
    await output.write(bytes);
    const held = wanted.length - missing.length;
    print(
      [
        `Wrote ${harmlessText(flags.out)}: record, study, ${signature === undefined ? "no signature" : "signature"}, reports in English and German, ${held} of ${wanted.length} files of evidence.`,
        ...missing.map(
          ({ name, sha256 }) =>
            `Not found: ${harmlessText(name)}, SHA-256 ${sha256}. --evidence names the folder that holds it; the dossier says that it is missing.`,
        ),
        "",
      ].join("\n"),
    );
  });
}

/** The files of folders whose digests are wanted. @throws {Fault} `no-such-file`: a folder that cannot be read */
async function evidenceIn(
  folders: readonly string[],
  wanted: readonly EvidenceFile[],
): Promise<ReadonlyMap<string, Uint8Array>> {
  const found = new Map<string, Uint8Array>();
  const digests = new Set(wanted.map(({ sha256 }) => sha256));
  if (digests.size === 0) return found;
  const names = new Set(wanted.map(({ name }) => name));
  for (const folder of folders) {
    const files = await readdir(folder, { withFileTypes: true }).catch((error: Error) => {
      throw new Fault("no-such-file", `The folder ${folder} cannot be read: ${error.message}`);
    });
    // What bears the name first: most often it is the file.
    const ordered = files
      .filter((entry) => entry.isFile())
      .toSorted((a, b) => Number(names.has(b.name)) - Number(names.has(a.name)))
      .slice(0, MOST_LOOKED_AT);
    for (const { name } of ordered) {
      if (found.size === digests.size) return found;
      const path = join(folder, name);
      if ((await stat(path)).size > LARGEST) continue;
      const bytes = await readFile(path);
      const digest = createHash("sha256").update(bytes).digest("hex");
      if (digests.has(digest)) found.set(digest, bytes);
    }
  }
  return found;
}
