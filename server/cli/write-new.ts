import { writeFile } from "node:fs/promises";
import { Fault } from "../errors.ts";

/** Writes a file that is not there yet, with these rights. @throws {Fault} `cannot-write` */
export async function writeNew(file: string, text: string, mode: number): Promise<void> {
  await writeFile(file, text, { mode, flag: "wx" }).catch((error: NodeJS.ErrnoException) => {
    throw new Fault(
      "cannot-write",
      error.code === "EEXIST"
        ? `${file} exists already and was not changed.`
        : `${file} cannot be written: ${error.message}`,
    );
  });
}
