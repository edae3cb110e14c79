import { readFile, writeFile } from "node:fs/promises";
import { Fault } from "../errors.ts";
import { openRecord } from "../record/open.ts";
import { signText } from "../record/signature.ts";
import type { CommandRegistration } from "./command.ts";

export const sign: CommandRegistration = (program) => {
  program
    .command("sign")
    .argument("<record>", "record file as run --out writes it")
    .requiredOption("--key <file>", "private key, as trialband keys makes it")
    .summary("sign a record, in a file beside it")
    .description("Signs the bytes of a record file with an Ed25519 key. The signature is written to RECORD.sig.")
    .action(async (file: string, { key }: { readonly key: string }) => {
      const bytes = await readFile(file).catch(() => {
        throw new Fault("no-such-file", `There is no file ${file}.`);
      });
      const { text } = openRecord(bytes, file);
      const privateKey = await readFile(key, "utf8").catch(() => {
        throw new Fault("no-such-file", `There is no file ${key}.`);
      });
      await writeFile(`${file}.sig`, `${JSON.stringify(signText(text, privateKey), null, 2)}\n`);
      process.stdout.write(`Wrote ${file}.sig\n`);
    });
};
