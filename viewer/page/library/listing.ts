import type { RunState, RunHead } from "../../api/runs.ts";
import { words, messages } from "../language.ts";
import { standingOf, standingWords, type Standing } from "../../present/verdict.ts";

/** What runs can be put in order by, and which way that goes first. */
export const ORDERS = {
  date: { label: words.library.started, first: -1, value: ({ startedAt }: RunHead) => startedAt },
  title: { label: words.library.title, first: 1, value: ({ title }: RunHead) => title },
  verdict: {
    label: words.library.verdict,
    first: 1,
    value: ({ verdict }: RunHead) => (verdict === null ? STANDINGS.length : STANDINGS.indexOf(standingOf(verdict))),
  },
  state: { label: words.library.state, first: 1, value: ({ state }: RunHead) => STATES.indexOf(state) },
} as const satisfies Record<string, { label: string; first: 1 | -1; value: (run: RunHead) => number | string }>;

export type Order = keyof typeof ORDERS;

/** Standings in the order of a list: what needs attention first. */
const STANDINGS: readonly Standing[] = ["notValidated", "undecided", "nothingVaries", "validated"];

/** As a reader wants them: what needs attention first. */
const STATES: readonly RunState[] = ["running", "waiting", "failed", "cancelled", "finished"];

/** How the list of runs is shown. */
export interface LibraryView {
  readonly search: string;
  readonly order: Order;
  /** 1 goes upwards. */
  readonly direction: 1 | -1;
  /** Ids of the runs chosen, in the order of choosing. */
  readonly picked: readonly string[];
  /** Most rows drawn. */
  readonly most: number;
  /** Ids of the runs removed last, which can be brought back. */
  readonly removed: readonly string[];
}

/** Rows drawn at first, and added by each wish for more. */
export const ROWS = 100;

export const LIBRARY: LibraryView = {
  search: "",
  order: "date",
  direction: -1,
  picked: [],
  most: ROWS,
  removed: [],
};

const folded = (text: string): string => text.normalize("NFKD").toLowerCase().replaceAll("−", "-");

/** Whether every word of a search is somewhere in the texts: `−40 hf` finds "Freezer probe HF-017 at −40 °C". */
export function matches(search: string, texts: readonly (string | null | undefined)[]): boolean {
  const all = folded(texts.filter((text) => text != null).join(" \n"));
  return folded(search)
    .split(/\s+/)
    .every((word) => all.includes(word));
}

/** Runs that a search finds, in the order asked for; equal ones newest first. */
export function listed(runs: readonly RunHead[], { search, order, direction }: LibraryView): RunHead[] {
  const { value } = ORDERS[order];
  return runs
    .filter((run) => matches(search, [run.title, run.model, run.study, run.note, outcome(run), when(run.startedAt)]))
    .sort((a, b) => direction * compare(value(a), value(b)) || compare(b.startedAt, a.startedAt));
}

const compare = (a: number | string, b: number | string): number =>
  typeof a === "string" || typeof b === "string" ? String(a).localeCompare(String(b), "en", { numeric: true }) : a - b;

/** How a run ended, or how it stands. */
export const outcome = ({ state, verdict }: RunHead): string =>
  state === "finished" && verdict !== null ? standingWords(standingOf(verdict), messages) : words.library.states[state];

const two = (value: number): string => String(value).padStart(2, "0");

/** Day and time in the reader's zone. */
export function when(text: string): string {
  const time = new Date(text);
  if (Number.isNaN(time.getTime())) return text;
  return `${time.getFullYear()}-${two(time.getMonth() + 1)}-${two(time.getDate())} ${two(time.getHours())}:${two(time.getMinutes())}`;
}
