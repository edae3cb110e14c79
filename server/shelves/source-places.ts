import { existsSync, readFileSync } from "node:fs";
import { SourceMap, type SourceMapPayload } from "node:module";
import { join, relative, resolve } from "node:path";
import { moduleFolder } from "./bundle.ts";

/**
 * A message in the terms of the files that a person wrote: places in a bundled model become places in its sources, as paths
 * from where the command runs.
 */
export function inSourceTerms(message: string): string {
  const folder = moduleFolder();
  if (!message.includes(folder)) return message;
  const places = new RegExp(`${escaped(folder)}/([0-9a-f]{64}\\.mjs):(\\d+):(\\d+)`, "g");
  return message.replace(places, (place, name: string, line: string, column: string) => {
    const file = join(folder, `${name}.map`);
    if (!existsSync(file)) return place;
    const map = new SourceMap(JSON.parse(readFileSync(file, "utf8")) as SourceMapPayload);
    // Lines and columns of a map count from 0, those of a stack from 1.
    const found = map.findEntry(Number(line) - 1, Number(column) - 1);
    if (!("originalSource" in found)) return place;
    const source = relative(process.cwd(), resolve(folder, found.originalSource));
    return `${source}:${found.originalLine + 1}:${found.originalColumn + 1}`;
  });
}

const escaped = (text: string): string => text.replace(/[\\^$.*+?()[\]{}|]/g, "\\$&");
