import type { Histogram, RunRecord } from "../../../engine/index.ts";
import type { ChosenInterval } from "../../api/measurands.ts";
import type { Reading } from "../reading.ts";

/** Asks the server for pictures and intervals from the whole sample of a finished run. */
export interface WholeSample {
  interval(measurand: string, probability: number): Promise<ChosenInterval>;
  histogram(measurand: string, bins: number): Promise<Histogram>;
}

/** What a panel may know beside the record. */
export interface View {
  /** The record as it was filed, for whoever saves it; what is drawn has its sentences in the language of the page. */
  readonly filed: RunRecord;
  /** The run goes on: the figures are those of the trials so far. */
  readonly provisional: boolean;
  /** How the run ended without an end of its own, so that nothing is concluded from its figures; `null` otherwise. */
  readonly abandoned: "cancelled" | "failed" | null;
  /** Where the record is from: the text of a file, byte for byte, or a run on the server. */
  readonly file: { readonly text: string | null; readonly run: string | null; readonly altered: boolean };
  /** Width to draw at, in CSS pixels. */
  readonly width: number;
  /** Path of the study for the command line, or `null` if this page does not have one. */
  readonly study: string | null;
  /** What the reader chose, here or in another panel. */
  readonly reading: Reading;
  /**
   * Changes choices of the reader and draws anew what shows them; `null` takes one back.
   *
   * @param alone only this panel shows them
   */
  choose(change: Readonly<Record<string, string | null>>, alone?: boolean): void;
  /** `null` if only the record is at hand: a run that goes on, a file. */
  readonly sample: WholeSample | null;
  /** The language that reports begin with: the laboratory's, or that of the page while it has stated none. */
  readonly reportLanguage: "en" | "de";
  /** Starts a full run of a study. */
  keep(study: unknown): void;
  /** Opens the form on a study. */
  edit(study: Readonly<Record<string, unknown>>): void;
}

/**
 * One section of the sheet. It declares what it is and when it applies, then draws the record into an element that it
 * alone owns and that outlives redraws: choices worth a link live in the reading, passing ones (a bin) in the element's
 * `dataset`.
 */
export interface Panel {
  readonly id: string;
  readonly title: string;
  /** It draws conclusions from the trials: it is not there for a run that was cancelled or failed. */
  readonly concludes?: true;
  appliesTo(record: RunRecord): boolean;
  render(element: HTMLElement, record: RunRecord, measurand: string, view: View): void;
}
