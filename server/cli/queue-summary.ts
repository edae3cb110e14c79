import { english } from "../../viewer/present/numbers.ts";
import type { QueueState } from "../../viewer/api/queue.ts";
import { listPart, tablePart, type Layout } from "../../viewer/terminal/lines.ts";

/** Seconds without a word of its coordinator after which a run counts as waiting for one. */
const SILENT = 5;

const count = (value: number): string => english.plain(value);
const seconds = (value: number): string => `${english.fixed(value, value < 10 ? 1 : 0)} s`;

/** What the workers and runs of a queue are at. */
export function queueSummary(state: QueueState, styles: Layout["styles"], width: number): string {
  const layout: Layout = { styles, width };
  const { address, workers, runs } = state;
  const there = workers.filter(({ gone }) => !gone);
  const rate = there.reduce((sum, worker) => sum + worker.rate, 0);
  const threads = there.reduce((sum, worker) => sum + worker.threads, 0);
  const lines = [
    styles.bold(`Queue at ${address}`),
    `${count(there.length)} worker(s) with ${count(threads)} thread(s), ${count(rate)} trials a second; ${count(runs.length)} run(s)`,
    ...tablePart(
      layout,
      "Workers",
      [
        ["machine/process", "left"],
        ["version", "left"],
        ["threads", "right"],
        ["jobs", "right"],
        ["trials drawn", "right"],
        ["a second", "right"],
        ["heard of", "right"],
      ],
      workers.map((worker) => [
        worker.name,
        worker.version,
        count(worker.threads),
        count(worker.active),
        count(worker.trials),
        count(worker.rate),
        worker.gone ? `gone for ${seconds(worker.silent)}` : `${seconds(worker.silent)} ago`,
      ]),
    ),
    ...tablePart(
      layout,
      "Runs",
      [
        ["study", "left"],
        ["trials", "right"],
        ["of", "right"],
        ["workers", "right"],
        ["jobs at work", "right"],
        ["jobs waiting", "right"],
      ],
      runs.map((run) => [
        run.title,
        count(run.trials),
        `${run.adaptive ? "at most " : ""}${count(run.limit)}`,
        count(run.workers),
        count(run.active),
        count(run.waiting),
      ]),
    ),
    ...listPart(layout, "What is stalled", stalledIn(state)),
  ];
  return [...lines, ""].join("\n");
}

function stalledIn({ workers, runs }: QueueState): string[] {
  return [
    ...workers
      .filter(({ gone }) => gone)
      .map(({ name, silent }) => `Worker ${name} has not been heard of for ${seconds(silent)}; its jobs go to others.`),
    ...runs.flatMap(({ title, workers: taking, silent, refusals }) => [
      ...(silent > SILENT
        ? [
            `${title}: its coordinator has not been heard of for ${seconds(silent)}; the same command, started again, goes on with it.`,
          ]
        : []),
      ...(taking === 0 ? [`${title}: no worker takes it.`] : []),
      ...refusals.map(({ worker, words }) => `${title}: refused by ${worker}: ${words}`),
    ]),
  ];
}
