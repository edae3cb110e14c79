import { Command, InvalidArgumentError } from "commander";
import { parts } from "./parts.ts";

/**
 * Runs the parts that were asked for, all where none was, prints their counts and ends with 1 where anything was lost,
 * hung, crashed or passed that should not have.
 */
const program = new Command("campaign").description(
  "Attacks records and the server for as long as asked, and accounts for everything that was accepted.",
);
for (const { option, help, usual } of parts)
  program.option(usual === undefined ? `--${option}` : `--${option} [n]`, help, (text) => {
    const value = Number(text);
    if (!Number.isInteger(value) || value < 1) throw new InvalidArgumentError("Expected a whole number from 1.");
    return value;
  });
const asked = program.parse().opts<Record<string, number | true>>();
const named = (option: string): number | true | undefined =>
  asked[option.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase())];
const chosen = parts.some(({ option }) => named(option) !== undefined)
  ? parts.filter(({ option }) => named(option) !== undefined)
  : parts;

const tell = (line: string): void => {
  if (process.stderr.isTTY) process.stderr.write(`\r\x1b[2K${line}`);
};
let failed = 0;
for (const part of chosen) {
  const count = named(part.option);
  const began = performance.now();
  const { counts, failures } = await part.run(typeof count === "number" ? count : (part.usual ?? 1), tell);
  tell("");
  const counted = Object.entries(counts).map(([what, n]) => `${n} ${what}`);
  const seconds = ((performance.now() - began) / 1000).toFixed(0);
  process.stdout.write(`--${part.option}: ${counted.join(", ")}; ${failures.length} failures; ${seconds} s\n`);
  for (const failure of failures.slice(0, 50)) process.stdout.write(`  ${failure}\n`);
  failed += failures.length;
}
process.exitCode = failed === 0 ? 0 : 1;
