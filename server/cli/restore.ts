import { resolve } from "node:path";
import { openStore } from "../store/open-store.ts";
import type { CommandRegistration } from "./command.ts";
import { warn, withStoreOption } from "./store-folder.ts";

export const restore: CommandRegistration = (program) => {
  withStoreOption(program.command("restore"))
    .argument("<file>", "a file that trialband backup has written")
    .summary("put a backup in the place of what a store has, also while a server uses it")
    .description(
      "Checks a backup and puts it in the place of what the store has, all at once. What was there is written to a backup beside it first. Works while a server uses the store, unless runs wait or go on. A store that is not there is made.",
    )
    .action((file: string, { store: folder }: { readonly store: string }) => {
      const store = openStore({ folder: resolve(folder), warn });
      try {
        const { runs, unfinished, before } = store.restore(resolve(file));
        process.stdout.write(
          `Restored ${runs} runs from ${file}.${before === null ? "" : ` What was there is in ${before}.`}\n${unfinished === 0 ? "" : goOn(unfinished)}`,
        );
      } finally {
        store.close();
      }
    });
};

const goOn = (unfinished: number): string =>
  `${unfinished === 1 ? "1 of them had not ended: it goes on" : `${unfinished} of them had not ended: they go on`} in a few seconds if a server uses this store now, and otherwise when one starts with it.\n`;
