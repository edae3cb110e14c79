import { textOf } from "../intake/json.ts";
import { readNamed } from "../intake/named-file.ts";
import { openOutput, withOutputs } from "../output-file.ts";
import { openRecord } from "../record/open.ts";
import { signText } from "../record/signature.ts";
import type { CommandRegistration } from "./command.ts";
import { print } from "./print.ts";

export const sign: CommandRegistration = (program) => {
  program
    .command("sign")
    .argument("<record>", "record file as run --out writes it")
    .requiredOption("--key <file>", "private key, as trialband keys makes it")
    .summary("sign a record, in a file beside it")
    .description("Signs the bytes of a record file with an Ed25519 key. The signature is written to RECORD.sig.")
    .action(async (file: string, { key }: { readonly key: string }) => {
      const output = await openOutput(`${file}.sig`, "The signature");
      await withOutputs([output], async () => {
        const { text } = openRecord(await readNamed(file), file);
        const privateKey = textOf(await readNamed(key), key);
        await output.write(`${JSON.stringify(signText(text, privateKey), null, 2)}\n`);
      });
      print(`Wrote ${file}.sig\n`);
    });
};
