import type { CommandRegistration } from "./command.ts";
import { withStore, withStoreOption } from "./store-folder.ts";

export const backup: CommandRegistration = (program) => {
  withStoreOption(program.command("backup"))
    .argument("<file>", "file to write; one that exists is not overwritten")
    .summary("write a store into one file, also while a server uses it")
    .description(
      "Writes the whole store, as it is at one moment, into one file, and checks the file. Works while a server uses the store.",
    )
    .action((file: string, { store: folder }: { readonly store: string }) => {
      const { bytes, runs, file: place } = withStore(folder, (store) => store.backup(file));
      process.stdout.write(`Wrote ${place}: ${runs} runs, ${bytes} bytes.\n`);
    });
};
