// The programs of a build, on the host at hand, beside the plain path: identical bits, or a line that says where not.
//   node program-bits.mjs ROOT, as nodes.mjs bundles and starts it on every Node.js
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { readStored } from "../../server/programs/stored.ts";
import { allEqual, comparedOnStudies, STUDIES_OF_PROGRAMS } from "../server/programs/compared.ts";

const root = process.argv[2]!;
const json = (file: string): unknown => JSON.parse(readFileSync(join(root, file), "utf8"));
const { sources } = json("dist/programs.json") as { sources: string };
const { models } = readStored(readFileSync(join(root, "dist/programs.json"), "utf8"), sources)!;
const documents = STUDIES_OF_PROGRAMS.map((id) => json(`examples/${id}.json`) as { model: string });
const found = comparedOnStudies(models, documents);
const wanted = Object.entries(allEqual(models));
for (const [id, one] of wanted) {
  if (JSON.stringify(found[id]) === JSON.stringify(one)) continue;
  process.stderr.write(`the program of ${id}: ${JSON.stringify(found[id])}\n`);
  process.exitCode = 1;
}
process.stdout.write(`${wanted.length}\n`);
