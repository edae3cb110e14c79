import { readdir, readFile, stat } from "node:fs/promises";
import { join } from "node:path";
import { Fault } from "../errors.ts";
import { parseJson, textOf } from "../intake/json.ts";
import { readNamed } from "../intake/named-file.ts";
import { isArchive } from "../dossier/archive.ts";
import { verifyDossier } from "../dossier/verify-dossier.ts";
import { defaultWorkers, openPool, type Pool } from "../runs/pool/pool.ts";
import { inModelThread } from "../own-model/host.ts";
import { verifyRecord, type Verification } from "../verify/verify.ts";
import { Option } from "commander";
import type { CommandRegistration } from "./command.ts";
import { print } from "./print.ts";
import { limitsOf, withModelLimits, type ModelLimitFlags } from "./model-limits.ts";
import { wholeNumber } from "./options.ts";
import { stylesFor, widthOf } from "../../viewer/terminal/style.ts";
import { harmless, harmlessText } from "../../viewer/terminal/harmless.ts";
import { wrap } from "../../viewer/terminal/table.ts";

interface VerifyFlags extends ModelLimitFlags {
  readonly key?: string;
  readonly publicKey?: string;
  readonly signature?: string;
  readonly trustModel?: boolean;
  readonly workers?: number;
  readonly json?: boolean;
}

export const verify: CommandRegistration = (program) => {
  withModelLimits(
    program
      .command("verify")
      .argument("<record...>", "record files as run --out writes them, folders of them, or dossiers (ZIP)")
      .summary("run records again and compare every figure; check dossiers")
      .description(
        "Checks a record's form, bytes, digests and signature, runs its study again and compares every figure bit for bit. If another version made the record, as far as its own word goes, everything is compared all the same: text and verdicts made again, every figure within its standard error found from repetitions. The record's word alone never makes it pass.",
      )
      .option("--key <file>", "the public key that must have signed (PEM); then a signature is required")
      .addOption(new Option("--public-key <file>", "the same as --key").hideHelp())
      .option("--signature <file>", "detached signature; without it, RECORD.sig is used if it exists")
      .option("--trust-model", "run the model that a record carries: it is code of the record's author")
      .option("--workers <n>", "threads that draw trials", wholeNumber(1, 64)),
  )
    .option("--json", "print the outcomes as JSON")
    .addHelpText(
      "after",
      "\nExit codes: 0 every record reproduces exactly, bit for bit, 1 one or more refused, 2 input that cannot be used, 4 none refused, but another version was at work on one or more: they agree, not proved to the bit.",
    )
    .action(async (places: string[], flags: VerifyFlags) => {
      process.exitCode = await verifyCommand(places, flags);
    });
};

async function verifyCommand(places: readonly string[], flags: VerifyFlags): Promise<number> {
  const files = (await Promise.all(places.map(filesAt))).flat();
  if (files.length === 0) throw new Fault("no-such-file", `There is no record in ${places.join(", ")}.`);
  const keyFile = flags.key ?? flags.publicKey;
  const publicKey = keyFile === undefined ? undefined : await readText(keyFile);
  const workers = flags.workers ?? defaultWorkers();
  let pool: Pool | undefined;
  const outcomes: (Verification & { file: string })[] = [];
  const abort = new AbortController();
  const interrupt = (): void => abort.abort();
  process.once("SIGINT", interrupt);
  try {
    for (const [index, file] of files.entries()) {
      if (process.stderr.isTTY) process.stderr.write(`\r\x1b[2K${bar(index, files.length)} ${harmlessText(file)}`);
      const content = await readBytes(file);
      const verifyOne = async (
        bytes: Uint8Array,
        name: string,
        signed: { readonly signature?: unknown },
      ): Promise<Verification> => {
        const checks = { ...signed, ...(publicKey === undefined ? {} : { publicKey }) };
        const record = Buffer.from(bytes);
        return flags.trustModel && record.includes('"modelSource": "')
          ? inModelThread(
              { kind: "verify", content: record, name, workers, ...checks },
              { signal: abort.signal, limits: limitsOf(flags) },
            )
          : verifyRecord(record, name, {
              ...checks,
              signal: abort.signal,
              pool: workers > 1 ? async () => (pool ??= await openPool(workers)) : undefined,
            });
      };
      const signature = isArchive(content) ? undefined : await signatureFor(file, flags.signature);
      const outcome = isArchive(content)
        ? await verifyDossier(content, file, verifyOne)
        : await verifyOne(content, file, signature === undefined ? {} : { signature });
      outcomes.push({ file, ...outcome });
      if (process.stderr.isTTY) process.stderr.write("\r\x1b[2K");
      if (!flags.json) print(outcomeText(file, outcome));
    }
  } finally {
    process.off("SIGINT", interrupt);
    await pool?.close();
  }
  const count = (kind: Verification["outcome"]): number => outcomes.filter(({ outcome }) => outcome === kind).length;
  if (flags.json) process.stdout.write(`${JSON.stringify(outcomes, null, 2)}\n`);
  else if (files.length > 1)
    process.stdout.write(
      `${count("bits")} of ${files.length} records reproduce exactly, bit for bit, ${count("agrees")} agree where another version was at work, ${count("refused")} refused.\n`,
    );
  if (count("refused") > 0) return 1;
  return count("agrees") > 0 ? 4 : 0;
}

const bar = (done: number, all: number): string =>
  `${"█".repeat(Math.round((20 * done) / all)).padEnd(20, "░")} ${done}/${all}`;

function outcomeText(name: string, verification: Verification): string {
  const { outcome, reasons, notes, title, study, figures } = harmless(verification);
  const file = harmlessText(name);
  const styles = stylesFor(process.stdout);
  const head = {
    bits: `reproduces exactly, bit for bit: all ${figures} figures`,
    agrees: "AGREES, NOT PROVED BIT FOR BIT: another version was at work",
    refused: "REFUSED",
  }[outcome];
  const bound = study === null ? [] : [`Digest of the study: ${study}.`];
  const lines = [
    `${styles.bold(file)}${title === null ? "" : ` (${title})`}: ${head}`,
    ...reasons,
    ...bound,
    ...notes,
  ].map((line, i) => wrap(i === 0 ? line : `- ${line}`, widthOf(process.stdout), "  "));
  return `${lines.join("\n")}\n`;
}

/** A record file itself, or the record files in a folder: JSON whose text names Trialband's format. */
async function filesAt(place: string): Promise<string[]> {
  const found = await stat(place).catch(() => {
    throw new Fault("no-such-file", `There is no file or folder ${place}.`);
  });
  if (!found.isDirectory()) return [place];
  const names = (await readdir(place)).filter((name) => name.endsWith(".json")).toSorted();
  const records = await Promise.all(
    names.map(async (name) =>
      (await readBytes(join(place, name))).includes('"trialband-record/') ? [join(place, name)] : [],
    ),
  );
  return records.flat();
}

const readText = async (file: string): Promise<string> => textOf(await readBytes(file), file);

const readBytes = (file: string): Promise<Buffer> => readNamed(file);

/** The signature beside a record, or `undefined`. @throws {Fault} a named one that is not there, or one that is no JSON */
async function signatureFor(record: string, named: string | undefined): Promise<unknown> {
  const file = named ?? `${record}.sig`;
  const bytes = await readFile(file).catch((error: NodeJS.ErrnoException) => {
    if (error.code === "ENOENT") return null;
    throw new Fault("no-such-file", `${file} cannot be read: ${error.message}`);
  });
  if (bytes !== null) return parseJson(bytes, file);
  if (named !== undefined) throw new Fault("no-such-file", `There is no file ${named}.`);
  return undefined;
}
