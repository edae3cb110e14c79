import { expect } from "vitest";
import type { RunRecord, Statement, StudyDocument } from "../../../engine/index.ts";
import type { Finished } from "./trialband.ts";

/** What the tests of commands on files of a laboratory share. */
export const at = (name: string): string => `examples/survey/${name}`;
/** A text without its line ends and indents. */
export const words = (text: string): string => text.replaceAll(/\s+/g, " ");

/** What a command printed as JSON; it ended well, without a word of complaint. */
export const parsed = <T>({ stdout, stderr, status }: Finished): T => {
  expect(stderr).toBe("");
  expect(status).toBe(0);
  return JSON.parse(stdout) as T;
};

export interface Output {
  readonly statements: Readonly<
    Record<string, Statement & { readonly estimate?: number; readonly halfWidth?: number }>
  >;
  readonly study: StudyDocument;
  readonly record: RunRecord;
  readonly remarks: readonly string[];
}
