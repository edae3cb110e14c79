// Every trial to a file, in the memory of one block, however many there are: those on which the record rests, bit for bit.
// In a program of one's own: node stream-trials.ts trials.csv (Node.js 22.18 and later runs TypeScript as it is)
import { createWriteStream } from "node:fs";
import { once } from "node:events";
import { finished } from "node:stream/promises";
import { drawTrials } from "trialband";
import study from "./several.ts";

export async function writeTrials(path: string, trials: number): Promise<void> {
  const file = createWriteStream(path);
  file.write("series/ohm,parallel/ohm,larger/ohm,smaller/ohm\n");
  for (const { count, inputs, measurands } of drawTrials(study, { trials })) {
    const columns = [inputs.series, inputs.parallel, measurands.larger, measurands.smaller];
    const lines = Array.from({ length: count }, (_, i) => columns.map((column) => column[i]).join(","));
    // A disk that is slower than the drawing is waited for.
    if (!file.write(`${lines.join("\n")}\n`)) await once(file, "drain");
  }
  file.end();
  await finished(file);
}

if (process.argv[1] === import.meta.filename) await writeTrials(process.argv[2] ?? "trials.csv", 1_000_000);
