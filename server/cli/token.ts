import { newToken } from "../access/token.ts";
import type { CommandRegistration } from "./command.ts";
import { print } from "./print.ts";
import { writeNew } from "./write-new.ts";

export const token: CommandRegistration = (program) => {
  program
    .command("token")
    .argument("<file>", "file to write; one that exists is not overwritten")
    .summary("make a token by which programs ask a server")
    .description(
      "Writes a token of 256 random bits into a file that its owner alone may read. trialband serve --token-file FILE takes it; a program sends it as Authorization: Bearer TOKEN.",
    )
    .action(async (file: string) => {
      await writeNew(file, `${newToken()}\n`, 0o600);
      print(`Wrote ${file} (keep it secret)\n`);
    });
};
