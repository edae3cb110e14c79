import { harmlessLines } from "../../viewer/terminal/harmless.ts";

/** Prints lines for people; what came from a file cannot steer the terminal. JSON for machines is written as it is. */
export const print = (text: string): void => void process.stdout.write(harmlessLines(text));

/** The same beside the result, so that this stays clean. */
export const printAside = (text: string): void => void process.stderr.write(harmlessLines(text));
