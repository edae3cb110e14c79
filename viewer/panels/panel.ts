import type { RunRecord } from "../../engine/index.ts";

/** What a panel may know beside the record. */
export interface View {
  /** The run goes on: the figures are those of the trials so far. */
  readonly provisional: boolean;
  /** Width to draw at, in CSS pixels. */
  readonly width: number;
  /** Path of the study for the command line, or `null` where this page does not know one. */
  readonly study: string | null;
}

/**
 * One section of the sheet. It declares what it is and when it applies, then draws the record into an element that it
 * alone owns and that outlives redraws: choices a reader made (an order, a bin) live in the element's `dataset`.
 */
export interface Panel {
  readonly id: string;
  readonly title: string;
  appliesTo(record: RunRecord): boolean;
  render(element: HTMLElement, record: RunRecord, measurand: string, view: View): void;
}
