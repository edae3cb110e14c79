import { titleLanguage } from "../draw/from-english.ts";
import { words as pageWords } from "../language.ts";
import { fillText } from "../../present/fill.ts";
import type { RemovedRun } from "../../api/runs.ts";
import type { Actions } from "../actions/index.ts";
import { listRemovedRuns, RequestError } from "../api.ts";
import { html, redraw } from "../draw/node.ts";
import { lacking } from "../permission.ts";
import { outcome, when } from "./listing.ts";

/** Removed runs drawn at most; a person looks for one of the last. */
const MOST = 100;

/** The runs that were removed, asked for once they are unfolded: each can be put back with all that was kept of it. */
export function createRemovedRuns({ putBack }: Actions): {
  readonly element: HTMLElement;
  readonly refresh: () => void;
} {
  const list = html("div", { id: "removed-list" });
  const count = html("p", { class: "note", id: "removed-count" });
  const said = html("p", { class: "note", role: "status", id: "removed-said" });
  const fold = html(
    "details",
    { class: "removed-runs", id: "removed-runs", ontoggle: () => unfold() },
    html("summary", { id: "removed-summary" }, pageWords.library.removedRuns),
    html("p", { class: "note" }, pageWords.library.removedNote),
    lacking("administer"),
    count,
    said,
    list,
  );
  let asked = 0;

  const unfold = (): void => {
    said.textContent = "";
    refresh();
  };
  const refresh = (): void => {
    if (fold.open) void read();
  };
  const read = async (): Promise<void> => {
    const mine = (asked += 1);
    try {
      const runs = await listRemovedRuns();
      if (mine !== asked) return;
      redraw(list, () => list.replaceChildren(...rows(runs)));
      count.textContent =
        runs.length === 0
          ? pageWords.library.noneRemoved
          : runs.length > MOST
            ? fillText(pageWords.library.lastShown, { most: String(MOST), n: String(runs.length) })
            : "";
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      said.textContent = error.fault.message;
    }
  };
  const rows = (runs: readonly RemovedRun[]): HTMLElement[] =>
    runs.length === 0
      ? []
      : [
          html(
            "ul",
            {},
            runs.slice(0, MOST).map((run) => html("li", {}, words(run), button(run))),
          ),
        ];
  const button = (run: RemovedRun): HTMLElement =>
    html(
      "button",
      {
        type: "button",
        class: "quiet",
        id: `put-back-${run.id}`,
        "data-needs": "administer",
        "aria-label": fillText(pageWords.library.putBackOne, { title: run.title, when: when(run.startedAt) }),
        onclick: async () => {
          if (!(await putBack(run.id))) return;
          await read();
          said.textContent = fillText(pageWords.library.backAgain, { title: run.title });
          // Its button is gone: the keyboard stays with the list.
          document.getElementById("removed-summary")?.focus();
        },
      },
      pageWords.library.putBack,
    );
  return { element: fold, refresh };
}

const words = (run: RemovedRun): HTMLElement =>
  html(
    "p",
    {},
    html("span", { lang: titleLanguage(run.study) }, run.title),
    html(
      "span",
      { class: "note" },
      fillText(pageWords.library.outcome, { outcome: outcome(run), when: when(run.startedAt) }),
    ),
    html(
      "span",
      { class: "note" },
      run.removedBy === null
        ? fillText(pageWords.library.removedAt, { when: when(run.removedAt) })
        : fillText(pageWords.library.removedBy, { when: when(run.removedAt), who: run.removedBy }),
    ),
  );
