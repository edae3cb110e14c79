import { readdir, readFile, stat } from "node:fs/promises";
import { join } from "node:path";
import { Fault } from "../errors.ts";
import { parseJson } from "../intake/json.ts";
import { defaultWorkers, openPool, type Pool } from "../runs/pool/pool.ts";
import { verifyRecord, type Verification } from "../record/verify.ts";
import type { CommandRegistration } from "./command.ts";
import { wholeNumber } from "./options.ts";
import { stylesFor, widthOf } from "../../viewer/terminal/style.ts";
import { wrap } from "../../viewer/terminal/table.ts";

interface VerifyFlags {
  readonly publicKey?: string;
  readonly signature?: string;
  readonly trustModel?: boolean;
  readonly workers?: number;
  readonly json?: boolean;
}

export const verify: CommandRegistration = (program) => {
  program
    .command("verify")
    .argument("<record...>", "record files as run --out writes them, or folders of them")
    .summary("run records again and compare every figure")
    .description(
      "Checks a record's form, bytes, digests and signature, runs its study again and compares every figure bit for bit; if bits may legitimately differ, it compares within standard errors and states why.",
    )
    .option("--public-key <file>", "the key that must have signed (PEM); then a signature is required")
    .option("--signature <file>", "detached signature; without it, RECORD.sig is used if it exists")
    .option("--trust-model", "run the model that a record carries: it is code of the record's author")
    .option("--workers <n>", "threads that draw trials", wholeNumber(1, 64))
    .option("--json", "print the outcomes as JSON")
    .addHelpText("after", "\nExit codes: 0 every record verified, 1 one or more refused, 2 input that cannot be used.")
    .action(async (places: string[], flags: VerifyFlags) => {
      process.exitCode = await verifyCommand(places, flags);
    });
};

async function verifyCommand(places: readonly string[], flags: VerifyFlags): Promise<number> {
  const files = (await Promise.all(places.map(filesAt))).flat();
  if (files.length === 0) throw new Fault("no-such-file", `There is no record in ${places.join(", ")}.`);
  const publicKey = flags.publicKey === undefined ? undefined : await readText(flags.publicKey);
  const workers = flags.workers ?? defaultWorkers();
  let pool: Pool | undefined;
  const outcomes: (Verification & { file: string })[] = [];
  const abort = new AbortController();
  const interrupt = (): void => abort.abort();
  process.once("SIGINT", interrupt);
  try {
    for (const [index, file] of files.entries()) {
      if (process.stderr.isTTY) process.stderr.write(`\r\x1b[2K${bar(index, files.length)} ${file}`);
      const signature = await signatureFor(file, flags.signature, publicKey !== undefined);
      const outcome =
        signature === null
          ? ({
              outcome: "refused",
              reasons: ["A public key was given, and the record has no signature."],
              notes: [],
              title: null,
              figures: 0,
            } as const)
          : await verifyRecord(await readBytes(file), file, {
              ...(signature === undefined ? {} : { signature }),
              ...(publicKey === undefined ? {} : { publicKey }),
              trustModel: flags.trustModel ?? false,
              signal: abort.signal,
              pool: workers > 1 ? async () => (pool ??= await openPool(workers)) : undefined,
            });
      outcomes.push({ file, ...outcome });
      if (process.stderr.isTTY) process.stderr.write("\r\x1b[2K");
      if (!flags.json) process.stdout.write(outcomeText(file, outcome));
    }
  } finally {
    process.off("SIGINT", interrupt);
    await pool?.close();
  }
  const refused = outcomes.filter(({ outcome }) => outcome === "refused").length;
  if (flags.json) process.stdout.write(`${JSON.stringify(outcomes, null, 2)}\n`);
  else if (files.length > 1) process.stdout.write(`${files.length - refused} of ${files.length} records verified.\n`);
  return refused === 0 ? 0 : 1;
}

const bar = (done: number, all: number): string =>
  `${"█".repeat(Math.round((20 * done) / all)).padEnd(20, "░")} ${done}/${all}`;

function outcomeText(file: string, { outcome, reasons, notes, title, figures }: Verification): string {
  const styles = stylesFor(process.stdout);
  const head = {
    bits: `repeats to the bit: all ${figures} figures`,
    errors: "agrees within standard errors",
    refused: "REFUSED",
  }[outcome];
  const lines = [`${styles.bold(file)}${title === null ? "" : ` (${title})`}: ${head}`, ...reasons, ...notes].map(
    (line, i) => wrap(i === 0 ? line : `- ${line}`, widthOf(process.stdout), "  "),
  );
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
      (await readText(join(place, name))).includes('"trialband-record/') ? [join(place, name)] : [],
    ),
  );
  return records.flat();
}

const readText = async (file: string): Promise<string> => (await readBytes(file)).toString("utf8");

const readBytes = (file: string): Promise<Buffer> =>
  readFile(file).catch(() => {
    throw new Fault("no-such-file", `There is no file ${file}.`);
  });

/** The signature beside a record: `undefined` if there is none and none is needed, `null` if one is. */
async function signatureFor(record: string, named: string | undefined, required: boolean): Promise<unknown> {
  const file = named ?? `${record}.sig`;
  const text = await readFile(file, "utf8").catch(() => null);
  if (text !== null) return parseJson(text, file);
  if (named !== undefined) throw new Fault("no-such-file", `There is no file ${named}.`);
  return required ? null : undefined;
}
