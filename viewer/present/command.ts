import type { RunRecord } from "../../engine/index.ts";

/** The words of a shell's command, quoted where a shell would take them apart. */
const quoted = (word: string): string =>
  /^[\w./:@%+=-]+$/.test(word) ? word : `'${word.replaceAll("'", String.raw`'\''`)}'`;

/** Name under which this page saves a study. */
export const STUDY_FILE = "study.json";

/** The command that draws the same trials again; `study` is its path, or `null` for a saved file. */
export const commandLine = ({ generator, trials }: RunRecord, study: string | null): string =>
  ["npx", "trialband", "run", study ?? STUDY_FILE, "--seed", generator.seed, "--trials", String(trials.count)]
    .map(quoted)
    .join(" ");
