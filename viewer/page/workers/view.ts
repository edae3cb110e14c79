import type { QueueState } from "../../api/queue.ts";
import { fillText } from "../../present/fill.ts";
import type { Cell, Table } from "../../present/tables/table.ts";
import { readQueue } from "../api.ts";
import { counted } from "../counted.ts";
import { html, redraw } from "../draw/node.ts";
import { wideTable } from "../draw/table.ts";
import { words } from "../later-words.ts";
import { fixed, whole } from "../numbers.ts";

/** Milliseconds between two looks. */
const LOOK_EVERY = 2000;
/** Seconds without a word of what started a run after which it is said. */
const SILENT = 10;

/** The workers of the queue, and how far runs are: read anew as long as it is shown. */
export function createWorkers(): { readonly show: () => HTMLElement } {
  const standing = html("p", { id: "workers-standing", role: "status" }, words.workers.reading);
  const away = html("p", { class: "note", id: "workers-away", role: "status" });
  const rest = html("div", { id: "workers-rest" });
  const element = html(
    "div",
    { class: "own-studies workers" },
    html(
      "header",
      { class: "sheet-head" },
      html("p", { class: "kind" }, words.workers.kind),
      html("h1", { id: "sheet-title", tabindex: -1 }, words.frame.workers),
    ),
    html("section", { class: "panel" }, standing, away),
    rest,
  );
  let timer: ReturnType<typeof setTimeout> | undefined;
  let drawn = "";

  const look = async (): Promise<void> => {
    clearTimeout(timer);
    // Something else is on the sheet: taken up again once this is.
    if (!element.isConnected) return;
    try {
      const { queue } = await readQueue();
      away.textContent = "";
      draw(queue);
    } catch {
      away.textContent = words.workers.away;
    }
    timer = setTimeout(() => void look(), LOOK_EVERY);
  };

  const draw = (state: QueueState | null): void => {
    const sentence = state === null ? words.workers.none : standingOf(state);
    if (standing.textContent !== sentence) standing.textContent = sentence;
    const now = JSON.stringify(state);
    if (now === drawn) return;
    drawn = now;
    redraw(rest, () => rest.replaceChildren(...(state === null ? [start()] : partsOf(state))));
  };

  return {
    show: () => {
      queueMicrotask(() => void look());
      return element;
    },
  };
}

const start = (): HTMLElement =>
  html(
    "p",
    {},
    html("code", {}, "npx trialband serve --queue redis://…"),
    html("br", {}),
    html("code", {}, "npx trialband worker --queue redis://…"),
  );

function standingOf({ workers }: QueueState): string {
  const there = workers.filter(({ gone }) => !gone);
  if (there.length === 0) return words.workers.noWorker;
  const sum = (of: "threads" | "rate"): number => there.reduce((all, worker) => all + worker[of], 0);
  return fillText(words.workers.sum, {
    workers: counted(words.workers.workers, there.length),
    threads: counted(words.workers.threads, sum("threads")),
    rate: whole(sum("rate")),
  });
}

function partsOf(state: QueueState): HTMLElement[] {
  const { workers, runs, address } = state;
  const stalled = stalledOf(state);
  const panel = (...content: readonly (HTMLElement | null)[]): HTMLElement =>
    html("section", { class: "panel" }, ...content);
  return [
    panel(
      workers.some(({ gone }) => !gone) ? null : start(),
      workers.length === 0 ? null : wideTable(workersTable(state), "workers-table"),
    ),
    panel(runs.length === 0 ? html("p", {}, words.workers.noRun) : wideTable(runsTable(state), "queue-runs")),
    panel(
      html("h2", {}, words.workers.stalled),
      stalled.length === 0
        ? html("p", { id: "nothing-stalled" }, words.workers.nothingStalled)
        : html("ul", { class: "sentences", id: "stalled" }, stalled),
      html("p", { class: "note" }, fillText(words.workers.queue, { address })),
    ),
  ];
}

const number = (value: number): Cell => ({ text: whole(value), value });
const seconds = (value: number): string => fixed(value, 0);

const workersTable = ({ workers }: QueueState): Table => ({
  caption: words.workers.tableOfWorkers,
  columns: [
    { head: words.workers.machine, kind: "head" },
    { head: words.workers.version, kind: "text" },
    { head: words.workers.threadsHead, kind: "number" },
    { head: words.workers.jobs, kind: "number" },
    { head: words.workers.drawn, kind: "number" },
    { head: words.workers.rate, kind: "number" },
    { head: words.workers.heard, kind: "text" },
  ],
  rows: workers.map(({ name, version, threads, active, trials, rate, silent, gone }) => ({
    head: name,
    cells: [
      version,
      number(threads),
      number(active),
      number(trials),
      number(gone ? 0 : rate),
      fillText(gone ? words.workers.gone : words.workers.ago, { n: seconds(silent) }),
    ],
  })),
});

const runsTable = ({ runs }: QueueState): Table => ({
  caption: words.workers.tableOfRuns,
  columns: [
    { head: words.workers.study, kind: "head" },
    { head: words.workers.trials, kind: "number" },
    { head: words.workers.of, kind: "text" },
    { head: words.workers.taking, kind: "number" },
    { head: words.workers.active, kind: "number" },
    { head: words.workers.waiting, kind: "number" },
  ],
  rows: runs.map(({ title, trials, limit, adaptive, workers, active, waiting }) => ({
    head: title,
    cells: [
      number(trials),
      adaptive ? fillText(words.workers.atMost, { n: whole(limit) }) : whole(limit),
      number(workers),
      number(active),
      number(waiting),
    ],
  })),
});

function stalledOf({ workers, runs }: QueueState): HTMLElement[] {
  const item = (...content: Parameters<typeof html>[2][]): HTMLElement => html("li", {}, ...content);
  return [
    ...workers
      .filter(({ gone }) => gone)
      .map(({ name, silent }) => item(`${name}: ${fillText(words.workers.gone, { n: seconds(silent) })}.`)),
    ...runs.flatMap(({ title, silent, workers: taking, refusals }) => [
      ...(silent > SILENT ? [item(fillText(words.workers.silentRun, { title, n: seconds(silent) }))] : []),
      ...(taking === 0 ? [item(fillText(words.workers.untaken, { title }))] : []),
      // The worker's own words, as it prints them.
      ...refusals.map(({ worker, words: why }) =>
        item(fillText(words.workers.refused, { title, worker }), html("span", { lang: "en" }, why)),
      ),
    ]),
  ];
}
