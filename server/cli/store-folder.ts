import { resolve } from "node:path";
import type { Command } from "commander";
import { Fault } from "../errors.ts";
import { hasStore, openStore } from "../store/open-store.ts";
import type { Store } from "../store/store.ts";

/** The option that names a store, the same for every command that uses one. */
export const withStoreOption = (command: Command): Command =>
  command.option("--store <folder>", "folder of the store", process.env["TRIALBAND_STORE"] ?? ".trialband");

/** Prints what a person should know, beside the output. */
export const warn = (message: string): void => void process.stderr.write(`${message}\n`);

/** Uses a store that is there, also while a server uses it. @throws {Fault} `no-such-file` */
export function withStore<T>(folder: string, use: (store: Store) => T): T {
  const place = resolve(folder);
  if (!hasStore(place)) {
    throw new Fault(
      "no-such-file",
      `There is no store in ${place}. trialband serve makes one; --store names another folder.`,
    );
  }
  const store = openStore({ folder: place, warn });
  try {
    return use(store);
  } finally {
    store.close();
  }
}
