import { fillText } from "./fill.ts";
import type { Speech } from "./statement.ts";

/** A selfcheck as far as its outcome and its installation are shown. */
export interface CheckedInstallation {
  readonly startedAt: string;
  readonly seconds: number;
  readonly scope: "quick" | "full";
  readonly seed: string | null;
  readonly passed: number;
  readonly failed: number;
  readonly installation: {
    readonly version: string;
    readonly folder: string;
    readonly commit: string | null;
    readonly engineDigest: string;
    readonly modelsDigest: string;
    readonly runtime: string;
    readonly system: string;
    readonly processor: string;
    readonly workers: number;
  };
}

/** How many lines passed and failed. */
export const checkTally = (
  { passed, failed }: Pick<CheckedInstallation, "passed" | "failed">,
  { messages }: Speech,
): string => fillText(messages.selfcheck.tally, { passed: String(passed), failed: String(failed) });

/** What a quick selfcheck leaves out, in words. */
export const scopeSentence = (scope: CheckedInstallation["scope"], { messages }: Speech): string =>
  messages.selfcheck[scope];

/** Whether the installation may be used. */
export const outcomeSentence = ({ failed }: Pick<CheckedInstallation, "failed">, { messages }: Speech): string =>
  failed === 0 ? messages.selfcheck.holds : messages.selfcheck.fails;

/** The command that repeats a selfcheck. */
export const selfcheckCommand = ({ scope, seed }: Pick<CheckedInstallation, "scope" | "seed">): string =>
  `npx trialband selfcheck${scope === "quick" ? " --quick" : ""}${seed === null ? "" : ` --seed '${seed.replaceAll("'", "'\\''")}'`}`;

/** "2026-03-02 09:30 UTC". */
export const checkMoment = (text: string): string => `${text.slice(0, 16).replace("T", " ")} UTC`;

/** A unit after a figure of a check, if it has one; a power of ten is a factor. */
export const withCheckUnit = (figures: string, unit: string): string =>
  unit === "" ? figures : unit.startsWith("10") ? `${figures} × ${unit}` : `${figures} ${unit}`;

/** The installation that was checked, and how: terms and what they are here, in their order. */
export function installationFacts(
  report: CheckedInstallation,
  speech: Speech,
): readonly (readonly [term: string, value: string])[] {
  const { installation } = report;
  const words = speech.messages.selfcheck;
  const seconds = speech.numbers.fixed(report.seconds, 1);
  return [
    [words.date, checkMoment(report.startedAt)],
    [words.program, installation.version],
    [words.folder, installation.folder],
    [words.commit, installation.commit ?? words.noCommit],
    [words.engine, `SHA-256 ${installation.engineDigest}`],
    [words.models, `SHA-256 ${installation.modelsDigest}`],
    [words.runtime, installation.runtime],
    [words.system, installation.system],
    [words.processor, installation.processor],
    [words.scope, scopeSentence(report.scope, speech)],
    [words.draws, report.seed === null ? words.ownSeeds : fillText(words.seed, { seed: report.seed })],
    [
      words.time,
      installation.workers === 1
        ? fillText(words.timeAlone, { seconds })
        : fillText(words.timeWith, { seconds, workers: String(installation.workers) }),
    ],
  ];
}
