import type { Actions } from "./actions/index.ts";
import type { Run } from "./run.ts";
import type { CopyLink } from "./copy-link.ts";
import { html, type Child } from "./draw/node.ts";
import { whole } from "../present/numbers.ts";
import { isAdaptive, settledShare } from "./progress.ts";
import { problemList } from "./trouble.ts";

/**
 * How the run stands: its progress while it goes on, then how it ended and what can be done next.
 *
 * @param link copies the address of the view; a file's record has none
 */
export function runStrip(run: Run, cut: boolean, busy: boolean, actions: Actions, link: CopyLink): HTMLElement {
  const goesOn = run.state === "waiting" || run.state === "running";
  return html(
    "div",
    { class: "run-strip", "data-state": run.state, id: "run-strip" },
    cut
      ? html(
          "p",
          { class: "cut" },
          "The connection to the server is lost. Trying again; the figures below are the last that arrived.",
        )
      : null,
    run.notKept == null ? null : notKept(run.notKept),
    goesOn ? going(run, actions) : ended(run, busy, actions, link),
    goesOn || run.file !== undefined ? null : link.answer,
  );
}

function going(run: Run, { cancel }: Actions): Child[] {
  const share = isAdaptive(run.record) ? settledShare(run.record!) : run.limit > 0 ? run.trials / run.limit : null;
  return [
    html(
      "p",
      { class: "progress-words" },
      html("strong", {}, run.state === "waiting" ? "Waiting for its turn" : `${whole(run.trials)} trials so far`),
      run.state === "waiting"
        ? ""
        : isAdaptive(run.record)
          ? untilSettled(share, run.limit)
          : ` of ${whole(run.limit)}`,
    ),
    html("progress", { "aria-label": "Progress of the run", max: 1, value: run.state === "waiting" ? null : share }),
    html(
      "button",
      { type: "button", class: "quiet", id: "cancel", "data-needs": "run", onclick: () => void cancel() },
      "Cancel the run",
    ),
  ];
}

const notKept = (why: string): HTMLElement =>
  html(
    "p",
    { class: "cut", role: "alert", id: "not-kept" },
    html("strong", {}, "This run is not kept. "),
    `${why} It is lost when the server stops. The server tries again every few seconds; print the sheet or take the record away meanwhile.`,
  );

const untilSettled = (share: number | null, limit: number): string =>
  share === null
    ? `, until the figures settle (${whole(limit)} at most)`
    : `, about ${Math.round(100 * share)} % of what the figures need to settle (${whole(limit)} at most)`;

function ended(run: Run, busy: boolean, { runAgain, editStudy }: Actions, link: CopyLink): Child[] {
  const buttons = html(
    "p",
    { class: "buttons" },
    html(
      "button",
      {
        type: "button",
        class: "quiet",
        id: "run-again",
        "data-needs": "run",
        disabled: busy,
        onclick: () => void runAgain(),
      },
      "Run it again",
    ),
    html(
      "button",
      { type: "button", class: "quiet", id: "edit-study", disabled: busy, onclick: () => void editStudy(run) },
      "Edit this study",
    ),
    run.record === null || run.state !== "finished"
      ? null
      : html(
          "button",
          { type: "button", class: "quiet", id: "print", onclick: () => window.print() },
          "Print the sheet",
        ),
    run.file === undefined ? link.button : null,
  );
  const incomplete =
    run.record === null ? "" : " The figures below are those of the trials made until then and stand for nothing.";
  switch (run.state) {
    case "failed":
      return [
        html("p", {}, html("strong", {}, "The run failed. "), run.error?.message ?? "No reason was given.", incomplete),
        run.error !== null && run.error.problems.length > 0 ? problemList(run.error.problems) : null,
        buttons,
      ];
    case "cancelled":
      return [html("p", {}, html("strong", {}, `Cancelled after ${whole(run.trials)} trials.`), incomplete), buttons];
    default:
      if (run.file !== undefined)
        return [
          html("p", {}, html("strong", {}, "Read from a file"), `: ${whole(run.trials)} trials, made earlier.`),
          buttons,
        ];
      return [html("p", {}, html("strong", {}, "Finished"), ` after ${whole(run.trials)} trials.`), buttons];
  }
}
