import type { Fault } from "./fault.ts";

/** A figure: a number, several of one row of a table, or words (a verdict, digits, a digest). */
export type Value = number | string | readonly number[];

/** How far an obtained figure may lie from the published one, and the reason. */
export interface Tolerance {
  /** Greatest difference of any one number; `null` if the two must be the same, or lie within what `basis` says. */
  readonly limit: number | null;
  /** The source of the limit: half a printed digit, five standard errors, equal to the last bit. */
  readonly basis: string;
}

/** What a check found: one line of the report, before it is put in its group. */
export interface Finding {
  readonly what: string;
  /** Document, edition, clause or table; or `common practice`; `null` for the check's own source. */
  readonly source: string | null;
  readonly published: Value;
  readonly obtained: Value;
  readonly unit: string;
  readonly tolerance: Tolerance;
  readonly passed: boolean;
  /** The figures as they are set, with the digits that matter, and the limit without its basis. */
  readonly shown: { readonly published: string; readonly obtained: string; readonly tolerance: string };
}

/** A line of the report. */
export interface CheckLine extends Finding {
  readonly group: string;
  readonly source: string;
}

/** What was checked, and on what. */
export interface InstallationFacts {
  readonly version: string;
  /** Folder of the installation. */
  readonly folder: string;
  /** Commit the build was made from; `null` outside a checkout, `+` if files differed from it. */
  readonly commit: string | null;
  /** SHA-256 of the sources of the engine and of the models. */
  readonly engineDigest: string;
  readonly modelsDigest: string;
  readonly runtime: string;
  readonly system: string;
  readonly processor: string;
  readonly workers: number;
}

/** How a selfcheck ended. */
export interface SelfcheckSummary {
  readonly format: "trialband-selfcheck/1";
  readonly startedAt: string;
  readonly seconds: number;
  readonly scope: "quick" | "full";
  /** The seed asked for in place of the studies' own. */
  readonly seed: string | null;
  readonly installation: InstallationFacts;
  readonly passed: number;
  readonly failed: number;
}

/** What happens while the checks are made. */
export type CheckEvent =
  | { readonly type: "group"; readonly id: string; readonly title: string }
  | { readonly type: "step"; readonly title: string; readonly done: number; readonly all: number }
  | { readonly type: "line"; readonly line: CheckLine };

/** An event of `POST /api/selfcheck?quick=`. The last is done or failed. */
export type SelfcheckEvent =
  | CheckEvent
  | { readonly type: "done"; readonly report: SelfcheckSummary }
  | { readonly type: "failed"; readonly error: Fault };
