import type { Part } from "./options.ts";
import type { Spread } from "./arithmetic.ts";

/** A line of the table of targets. */
export interface Row {
  readonly part: Part;
  readonly words: string;
  /** What it should be; `null` where it is only recorded. */
  readonly target: { readonly limit: number; readonly sense: "≤" | "≥" } | null;
  readonly measured: number | null;
  /** Quartiles over the rounds, where there were rounds. */
  readonly spread: Spread | null;
  readonly unit: "" | "×" | "ms" | "MB" | "%";
  /** How it was measured, or why it was not. */
  readonly note: string;
}

/** Whether a target is met; `null` where there is none or nothing was measured. */
export function met({ target, measured }: Row): boolean | null {
  if (target === null || measured === null) return null;
  return target.sense === "≤" ? measured <= target.limit : measured >= target.limit;
}

/** What one contestant took for one workload. */
export interface Timing {
  readonly workload: string;
  readonly contestant: string;
  readonly title: string;
  readonly milliseconds: Spread;
  readonly residentMb: number;
  /** Checksum of the first round's answer. */
  readonly checksum: string;
}

export const row = (
  part: Part,
  words: string,
  target: string | null,
  measured: number | null,
  more: Partial<Pick<Row, "spread" | "unit" | "note">> = {},
): Row => ({
  part,
  words,
  measured,
  target: target === null ? null : { sense: target.startsWith("≤") ? "≤" : "≥", limit: Number(target.slice(1)) },
  spread: more.spread ?? null,
  unit: more.unit ?? "",
  note: more.note ?? "",
});
