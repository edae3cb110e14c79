import { words } from "./language.ts";
import { fillText } from "../present/fill.ts";
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
    cut ? html("p", { class: "cut" }, words.sheet.cut) : null,
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
      html(
        "strong",
        {},
        run.state === "waiting" ? words.sheet.waiting : fillText(words.sheet.soFar, { n: whole(run.trials) }),
      ),
      run.state === "waiting"
        ? ""
        : isAdaptive(run.record)
          ? untilSettled(share, run.limit)
          : fillText(words.sheet.of, { n: whole(run.limit) }),
    ),
    html("progress", { "aria-label": words.sheet.progress, max: 1, value: run.state === "waiting" ? null : share }),
    html(
      "button",
      { type: "button", class: "quiet", id: "cancel", "data-needs": "run", onclick: () => void cancel() },
      words.sheet.cancel,
    ),
  ];
}

const notKept = (why: string): HTMLElement =>
  html(
    "p",
    { class: "cut", role: "alert", id: "not-kept" },
    html("strong", {}, words.sheet.notKept),
    fillText(words.sheet.notKeptWhy, { why }),
  );

/** Prints the sheet as one page: what else is on it is left out by the style of the print, for this print alone. */
function printForCustomer(): void {
  const { dataset } = document.documentElement;
  dataset["print"] = "customer";
  addEventListener("afterprint", () => delete dataset["print"], { once: true });
  window.print();
}

const untilSettled = (share: number | null, limit: number): string =>
  share === null
    ? fillText(words.sheet.untilSettled, { n: whole(limit) })
    : fillText(words.sheet.aboutSettled, { share: String(Math.round(100 * share)), n: whole(limit) });

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
      words.sheet.again,
    ),
    html(
      "button",
      { type: "button", class: "quiet", id: "edit-study", disabled: busy, onclick: () => void editStudy(run) },
      words.sheet.edit,
    ),
    run.record === null || run.state !== "finished"
      ? null
      : [
          html(
            "button",
            { type: "button", class: "quiet", id: "print", onclick: () => window.print() },
            words.sheet.print,
          ),
          run.file?.altered === true
            ? null
            : html(
                "button",
                { type: "button", class: "quiet", id: "print-customer", onclick: printForCustomer },
                words.assessor.printCustomer,
              ),
        ],
    run.file === undefined ? link.button : null,
  );
  const incomplete = run.record === null ? "" : words.sheet.incomplete;
  switch (run.state) {
    case "failed":
      return [
        html("p", {}, html("strong", {}, words.sheet.failed), run.error?.message ?? words.sheet.noReason, incomplete),
        run.error !== null && run.error.problems.length > 0 ? problemList(run.error.problems) : null,
        buttons,
      ];
    case "cancelled":
      return [
        html("p", {}, html("strong", {}, fillText(words.sheet.cancelled, { n: whole(run.trials) })), incomplete),
        buttons,
      ];
    default:
      if (run.file !== undefined)
        return [
          html(
            "p",
            {},
            html("strong", {}, words.sheet.fromAFile),
            fillText(words.sheet.made, { n: whole(run.trials) }),
          ),
          buttons,
        ];
      return [
        html("p", {}, html("strong", {}, words.sheet.finished), fillText(words.sheet.after, { n: whole(run.trials) })),
        buttons,
      ];
  }
}
