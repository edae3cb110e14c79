import { pino, type DestinationStream, type Logger } from "pino";
import type { LogLevel } from "./levels.ts";

/** A log that keeps nothing. */
export const quiet: Logger = pino({ level: "silent" });

/** What no line of the log may carry, whatever is logged. */
const SECRET = ["authorization", "cookie", "password", "token", "*.authorization", "*.cookie", "*.password", "*.token"];

/**
 * The log of a server: one JSON object a line, or plain lines for a person at a terminal.
 *
 * @param to where the lines go; without one, standard error
 * @param plain whether a person reads it; without it, whether standard error is a terminal
 */
export function openLog(
  level: LogLevel,
  to: DestinationStream = { write: (line) => void process.stderr.write(line) },
  plain: boolean = process.stderr.isTTY,
): Logger {
  const options = { level, base: null, redact: SECRET, formatters: { level: (name: string) => ({ level: name }) } };
  return pino(options, plain ? { write: (line) => to.write(plainLine(line)) } : to);
}

/** A line of the log as a person reads it: what is known, then the trace of an error. */
function plainLine(line: string): string {
  const { level, time, msg, err, ...rest } = JSON.parse(line) as {
    readonly level: string;
    readonly time: number;
    readonly msg: string;
    readonly err?: { readonly stack?: string };
  } & Readonly<Record<string, unknown>>;
  const known = Object.entries(rest).map(([name, value]) => ` ${name}=${printable(value)}`);
  const stack = err?.stack === undefined ? "" : `${err.stack.split("\n").map(printable).join("\n")}\n`;
  return `${new Date(time).toISOString()} ${level}: ${printable(msg)}${known.join("")}\n${stack}`;
}

/** Without control characters, which a terminal would carry out. */
const printable = (value: unknown): string =>
  // oxlint-disable-next-line no-control-regex -- these are the characters that are looked for
  (typeof value === "string" ? value : JSON.stringify(value)).replaceAll(
    /[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/g,
    "\uFFFD",
  );
