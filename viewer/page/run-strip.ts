import { words } from "./language.ts";
import { fillText } from "../present/fill.ts";
import type { Actions } from "./actions/index.ts";
import type { Run } from "./run.ts";
import type { CopyLink } from "./copy-link.ts";
import { append, html, redraw, type Child } from "./draw/node.ts";
import { whole } from "./numbers.ts";
import { isAdaptive, shareDone } from "./progress.ts";
import { problemList } from "./trouble.ts";

const goesOn = ({ state }: Run): boolean => state === "waiting" || state === "running";

/** How the run on the sheet stands. */
export interface RunStrip {
  readonly element: HTMLElement;
  /** @param run `null` if no run is on the sheet */
  readonly draw: (run: Run | null, cut: boolean, busy: boolean) => void;
}

/**
 * How the run stands: its progress while it goes on, then how it ended and what can be done next. While it goes on, its
 * elements stay and only their words change: a press on *Cancel* meets the button, however often figures arrive.
 *
 * @param link copies the address of the view; a file's record has none
 */
export function createRunStrip(actions: Actions, link: CopyLink): RunStrip {
  const element = html("div", {});
  const said = html("p", { class: "progress-words" });
  const bar = html("progress", { "aria-label": words.sheet.progress, max: 1 });
  const cancel = html(
    "button",
    { type: "button", class: "quiet", id: "cancel", "data-needs": "run", onclick: () => void actions.cancel() },
    words.sheet.cancel,
  );
  const notices = html("div", { class: "notices" });
  const going = html(
    "div",
    { class: "run-strip going", "data-state": "running", id: "run-strip" },
    html("div", { class: "progress-part" }, said, bar),
    cancel,
    notices,
  );
  return {
    element,
    draw: (run, cut, busy) => {
      if (run === null) return element.replaceChildren();
      const notes = [
        ...(cut ? [html("p", { class: "cut" }, words.sheet.cut)] : []),
        ...(run.notKept == null ? [] : [notKept(run.notKept)]),
      ];
      if (goesOn(run)) {
        going.dataset["state"] = run.state;
        said.replaceChildren();
        append(said, progressWords(run));
        const share = shareDone(run);
        if (share === null) bar.removeAttribute("value");
        else bar.value = share;
        notices.replaceChildren(...notes);
        if (element.firstElementChild !== going) element.replaceChildren(going);
        return;
      }
      redraw(element, () =>
        element.replaceChildren(
          html(
            "div",
            { class: "run-strip", "data-state": run.state, id: "run-strip" },
            notes,
            ended(run, busy, actions, link),
            run.file === undefined ? link.answer : null,
          ),
        ),
      );
    },
  };
}

function progressWords(run: Run): Child[] {
  if (run.state === "waiting") return [html("strong", {}, words.sheet.waiting)];
  return [
    html("strong", {}, fillText(words.sheet.soFar, { n: whole(run.trials) })),
    isAdaptive(run.record)
      ? untilSettled(shareDone(run), run.limit)
      : fillText(words.sheet.of, { n: whole(run.limit) }),
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
