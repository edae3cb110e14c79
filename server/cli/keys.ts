import { makeKeys } from "../record/signature.ts";
import type { CommandRegistration } from "./command.ts";
import { print } from "./print.ts";
import { writeNew } from "./write-new.ts";

export const keys: CommandRegistration = (program) => {
  program
    .command("keys")
    .argument("<name>", "writes NAME.key (private, keep it) and NAME.pub (public, to give to others)")
    .summary("make a pair of keys to sign records with")
    .description("Makes a pair of Ed25519 keys. Files that exist are not overwritten.")
    .action(async (name: string) => {
      const { privateKey, publicKey } = makeKeys();
      await writeNew(`${name}.key`, privateKey, 0o600);
      await writeNew(`${name}.pub`, publicKey, 0o644);
      print(`Wrote ${name}.key (keep it secret) and ${name}.pub\n`);
    });
};
