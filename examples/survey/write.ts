/**
 * Writes what `generate.ts` makes into a folder:
 *
 *     npx esbuild examples/survey/write.ts --bundle --platform=node --format=cjs | node - examples/survey
 */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { generate } from "./generate.ts";

const folder = process.argv[2];
if (folder === undefined) throw new Error("name the folder to write to");
for (const [name, text] of generate()) writeFileSync(join(folder, name), text);
