import { standingOf } from "../../present/verdict.ts";
import type { Actions } from "../actions/index.ts";
import { writeAddress } from "../address.ts";
import type { RunHead } from "../../api/runs.ts";
import { html, redraw, type Child } from "../draw/node.ts";
import { lacking } from "../permission.ts";
import { whole } from "../../present/numbers.ts";
import { verdictMark } from "../draw/swatch.ts";
import type { State } from "../state.ts";
import { createRemovedRuns } from "./removed.ts";
import { listed, ORDERS, outcome, ROWS, when, type LibraryView, type Order } from "./listing.ts";

/** Every run kept: to be searched, put in order, compared and removed. */
export function createLibrary(actions: Actions): { readonly show: (state: State) => HTMLElement } {
  const search = html("input", {
    type: "search",
    id: "find-run",
    autocomplete: "off",
    spellcheck: "false",
    oninput: () => actions.look({ search: search.value, most: ROWS }),
  });
  const found = html("p", { class: "note", id: "runs-found" });
  const bar = html("div", { class: "picked-bar" });
  const table = html("div", { class: "runs-table" });
  const body = html(
    "div",
    { class: "runs-kept" },
    html("p", { class: "find" }, html("label", { for: "find-run" }, "Find a run"), search, found),
    bar,
    table,
  );
  const none = html(
    "p",
    { class: "note", id: "no-runs" },
    "None yet: run a study, and it is kept here until you remove it.",
  );
  const removed = createRemovedRuns(actions);
  const reading = html("p", { class: "note" }, "Reading the list of runs…");
  const section = html("div", {}, none, body, removed.element);
  const element = html(
    "div",
    {},
    html("header", { class: "sheet-head" }, html("h1", { id: "sheet-title", tabindex: -1 }, "Runs kept here")),
    reading,
    section,
  );
  let drawn: State | null = null;

  return {
    show: (state) => {
      const { runs, library } = state;
      if (drawn !== null && drawn.runs === runs && drawn.library === library && drawn.busy === state.busy)
        return element;
      if (drawn?.runs !== runs) removed.refresh();
      drawn = state;
      section.hidden = runs === null;
      reading.hidden = runs !== null;
      if (runs === null) return element;
      none.hidden = runs.length > 0;
      body.hidden = runs.length === 0;
      // A view taken back by the browser's own history keeps what was typed.
      if (search.value !== library.search) search.value = library.search;
      const rows = listed(runs, library);
      found.textContent =
        library.search.trim() === ""
          ? `${whole(runs.length)} in all`
          : `${whole(rows.length)} of ${whole(runs.length)} found`;
      redraw(bar, () => bar.replaceChildren(...pickedBar(runs, library, state.busy, actions)));
      redraw(table, () => table.replaceChildren(...runTable(rows, library, actions)));
      return element;
    },
  };
}

/** What can be done with the runs that are chosen. */
function pickedBar(
  runs: readonly RunHead[],
  { picked, removed }: LibraryView,
  busy: boolean,
  actions: Actions,
): HTMLElement[] {
  const chosen = runs.filter(({ id }) => picked.includes(id));
  if (chosen.length === 0)
    return [
      removed.length === 0
        ? html(
            "p",
            { class: "note" },
            "Choose two runs to see them side by side; choose one to write a note beside it or to remove it.",
          )
        : undoBar(removed.length, busy, actions),
    ];
  const goingOn = chosen.some(({ state }) => state === "running" || state === "waiting");
  const [first, second] = picked;
  return [
    html(
      "p",
      { class: "buttons" },
      html("strong", {}, `${chosen.length} chosen`),
      chosen.length === 2
        ? html(
            "a",
            { class: "button", id: "compare", href: writeAddress({ kind: "comparison", id: first!, with: second! }) },
            "Compare",
          )
        : html(
            "span",
            { class: "note" },
            chosen.length === 1 ? "choose one more to set the two side by side" : "only two can be set side by side",
          ),
      html(
        "button",
        {
          type: "button",
          class: "quiet",
          id: "remove",
          "data-needs": "administer",
          disabled: busy || goingOn,
          onclick: () => void remove(picked, actions),
        },
        goingOn ? "Remove (cancel what goes on first)" : "Remove",
      ),
      html(
        "button",
        { type: "button", class: "quiet", id: "pick-none", onclick: () => actions.look({ picked: [] }) },
        "Choose none",
      ),
    ),
    lacking("administer"),
    ...(chosen.length === 1 && !goingOn ? [noteField(chosen[0]!, actions)] : []),
  ];
}

async function remove(ids: readonly string[], actions: Actions): Promise<void> {
  await actions.remove(ids);
  // The way back stands where the button was: the keyboard stays there too.
  focusSoon("undo-removal");
}

/** Says what was removed, with the way back. */
const undoBar = (count: number, busy: boolean, { undoRemoval }: Actions): HTMLElement =>
  html(
    "p",
    { class: "buttons", role: "status" },
    html("strong", {}, count === 1 ? "One run was removed." : `${whole(count)} runs were removed.`),
    html(
      "button",
      { type: "button", class: "quiet", id: "undo-removal", disabled: busy, onclick: () => void undoRemoval() },
      "Undo",
    ),
  );

function focusSoon(id: string): void {
  requestAnimationFrame(() => requestAnimationFrame(() => document.getElementById(id)?.focus()));
}

function noteField(run: RunHead, { annotate }: Actions): HTMLElement {
  const { note } = run;
  const input = html("input", { type: "text", id: "run-note", maxlength: 500, value: note ?? "" });
  return html(
    "form",
    {
      class: "note-field",
      "data-needs": "run",
      onsubmit: (event: SubmitEvent) => {
        event.preventDefault();
        void annotate(run, input.value);
      },
    },
    html("label", { for: "run-note" }, "Note beside it"),
    input,
    html("button", { type: "submit", class: "quiet", id: "keep-note" }, "Keep the note"),
  );
}

function runTable(rows: readonly RunHead[], view: LibraryView, actions: Actions): HTMLElement[] {
  if (rows.length === 0)
    return [html("p", { class: "note" }, "No run has all of these words in its title, model, note, state or date.")];
  const left = rows.length - view.most;
  return [
    html(
      "table",
      { class: "listing", "aria-label": "Runs", role: "table" },
      html("thead", { role: "rowgroup" }, heads(view, actions)),
      html(
        "tbody",
        { role: "rowgroup" },
        rows.slice(0, view.most).map((run) => row(run, view, actions)),
      ),
    ),
    ...(left > 0
      ? [
          html(
            "p",
            { class: "buttons" },
            html(
              "button",
              {
                type: "button",
                class: "quiet",
                id: "more-runs",
                onclick: () => actions.look({ most: view.most + ROWS }),
              },
              `Show more (${whole(left)} left)`,
            ),
          ),
        ]
      : []),
  ];
}

function heads({ order, direction }: LibraryView, { look }: Actions): HTMLElement {
  const cell = (name: Order): HTMLElement =>
    html(
      "th",
      {
        scope: "col",
        role: "columnheader",
        class: `of-${name}`,
        "aria-sort": name === order ? (direction === 1 ? "ascending" : "descending") : null,
      },
      html(
        "button",
        {
          type: "button",
          id: `order-${name}`,
          onclick: () => look({ order: name, direction: name === order ? (-direction as 1 | -1) : ORDERS[name].first }),
        },
        ORDERS[name].label,
        html("span", { class: "arrow", "aria-hidden": "true" }, name === order ? (direction === 1 ? "▲" : "▼") : ""),
      ),
    );
  return html(
    "tr",
    { role: "row" },
    html("td", { role: "cell", class: "of-pick" }, ""),
    cell("verdict"),
    cell("title"),
    cell("state"),
    html("th", { scope: "col", role: "columnheader", class: "of-trials" }, "Trials"),
    cell("date"),
  );
}

function row(run: RunHead, { picked }: LibraryView, { choose }: Actions): HTMLElement {
  const chosen = picked.includes(run.id);
  const { id, title, model, state, verdict, note, notKept, trials, startedAt } = run;
  return html(
    "tr",
    { role: "row", "data-chosen": chosen ? "true" : null },
    html(
      "td",
      { role: "cell", class: "of-pick" },
      html("input", {
        type: "checkbox",
        id: `pick-${id}`,
        checked: chosen,
        "aria-label": `Choose ${title}, ${when(startedAt)}`,
        onchange: () => choose(id),
      }),
    ),
    html("td", { role: "cell", class: "of-verdict" }, verdictCell(run)),
    html(
      "th",
      { scope: "row", role: "rowheader", class: "of-title" },
      html("a", { href: writeAddress({ kind: "run", id, measurand: null }), id: `kept-${id}` }, title),
      html("span", { class: "note" }, html("code", {}, model)),
      note == null ? null : html("span", { class: "remark" }, note),
      notKept == null ? null : html("span", { class: "remark" }, html("strong", {}, "Not kept. "), notKept),
    ),
    html(
      "td",
      { role: "cell", class: "of-state", "data-state": state },
      verdict === null || state !== "finished" ? html("strong", {}, state) : state,
    ),
    html("td", { role: "cell", class: "of-trials", "data-label": "Trials" }, whole(trials)),
    html(
      "td",
      { role: "cell", class: "of-date", "data-label": "Started" },
      html("time", { datetime: startedAt }, when(startedAt)),
    ),
  );
}

function verdictCell(run: RunHead): Child {
  const { verdict } = run;
  if (verdict === null) return html("span", { class: "verdict-none" }, "–");
  return html(
    "span",
    { class: "verdict-small", "data-standing": standingOf(verdict) },
    verdictMark(standingOf(verdict)),
    html("span", {}, outcome(run)),
  );
}
