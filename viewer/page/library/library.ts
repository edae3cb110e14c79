import { standingOf } from "../../present/verdict.ts";
import type { Actions } from "../actions/index.ts";
import { writeAddress } from "../address.ts";
import type { RunHead } from "../../api/runs.ts";
import { html, redraw, type Child } from "../draw/node.ts";
import { whole } from "../../present/numbers.ts";
import { verdictMark } from "../draw/swatch.ts";
import type { State } from "../state.ts";
import { listed, ORDERS, outcome, ROWS, when, type LibraryView, type Order } from "./listing.ts";

/** What the page is, and every run kept: to be searched, put in order, compared and deleted. */
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
    "None yet: run a study, and it is kept here until you delete it.",
  );
  const section = html("section", { class: "panel" }, html("h2", { id: "runs-title" }, "Runs kept here"), none, body);
  const element = html("div", {}, welcome(), section);
  let drawn: State | null = null;

  return {
    show: (state) => {
      const { runs, library } = state;
      if (drawn !== null && drawn.runs === runs && drawn.library === library && drawn.busy === state.busy)
        return element;
      drawn = state;
      section.hidden = runs === null;
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

const welcome = (): HTMLElement =>
  html(
    "section",
    { class: "empty" },
    html("h1", { id: "sheet-title", tabindex: -1 }, "Does your uncertainty budget hold?"),
    html(
      "p",
      {},
      "This page sets the linear uncertainty budget of a measurement beside a Monte Carlo propagation of the same input quantities, and says whether the budget is validated and why. ",
      "Choose a study from the list, open a study or a budget table of your own, write a new study, or begin with ",
      html("a", { href: writeAddress({ kind: "surveys" }), id: "to-surveys" }, "the survey of a bath"),
      ". ",
      "Then run it: the sheet fills while the trials are drawn, and can be printed when they are done.",
    ),
  );

/** What can be done with the runs that are chosen. */
function pickedBar(
  runs: readonly RunHead[],
  { picked, deleting }: LibraryView,
  busy: boolean,
  actions: Actions,
): HTMLElement[] {
  const chosen = runs.filter(({ id }) => picked.includes(id));
  if (chosen.length === 0)
    return [
      html(
        "p",
        { class: "note" },
        "Choose two runs to see them side by side; choose one to write a note beside it or to delete it.",
      ),
    ];
  const goingOn = chosen.some(({ state }) => state === "running" || state === "waiting");
  const many = chosen.length === 1 ? "this run" : `these ${chosen.length} runs`;
  if (deleting) {
    return [
      html(
        "p",
        { class: "buttons", role: "group", "aria-label": "Delete for good?" },
        html("strong", {}, `Delete ${many} for good, with ${chosen.length === 1 ? "its record" : "their records"}?`),
        html(
          "button",
          {
            type: "button",
            class: "main",
            id: "delete-sure",
            disabled: busy,
            onclick: () => void actions.remove(picked),
          },
          "Delete",
        ),
        html("button", { type: "button", class: "quiet", id: "delete-not", onclick: () => leave(actions) }, "Keep"),
      ),
    ];
  }
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
        { type: "button", class: "quiet", id: "delete", disabled: busy || goingOn, onclick: () => ask(actions) },
        goingOn ? "Delete (cancel what goes on first)" : "Delete…",
      ),
      html(
        "button",
        { type: "button", class: "quiet", id: "pick-none", onclick: () => actions.look({ picked: [] }) },
        "Choose none",
      ),
    ),
    ...(chosen.length === 1 && !goingOn ? [noteField(chosen[0]!, actions)] : []),
  ];
}

function ask(actions: Actions): void {
  actions.look({ deleting: true });
  // The question stands where the button was: the keyboard stays there too.
  focusSoon("delete-sure");
}

function leave(actions: Actions): void {
  actions.look({ deleting: false });
  focusSoon("delete");
}

function focusSoon(id: string): void {
  requestAnimationFrame(() => requestAnimationFrame(() => document.getElementById(id)?.focus()));
}

function noteField({ id, note }: RunHead, { annotate }: Actions): HTMLElement {
  const input = html("input", { type: "text", id: "run-note", maxlength: 500, value: note ?? "" });
  return html(
    "form",
    {
      class: "note-field",
      onsubmit: (event: SubmitEvent) => {
        event.preventDefault();
        void annotate(id, input.value);
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
  const { id, title, model, state, verdict, note, trials, startedAt } = run;
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
