import { titleLanguage } from "../draw/from-english.ts";
import { words } from "../language.ts";
import { fillText } from "../../present/fill.ts";
import { counted } from "../counted.ts";
import { standingOf } from "../../present/verdict.ts";
import type { Actions } from "../actions/index.ts";
import { writeAddress } from "../address.ts";
import type { RunHead } from "../../api/runs.ts";
import { html, redraw, type Child } from "../draw/node.ts";
import { lacking } from "../permission.ts";
import { whole } from "../numbers.ts";
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
  const find = html("p", { class: "find" }, html("label", { for: "find-run" }, words.library.find), search, found);
  const body = html("div", { class: "runs-kept" }, find, bar, table);
  const none = html("p", { class: "note", id: "no-runs" }, words.library.none);
  const removed = createRemovedRuns(actions);
  const reading = html("p", { class: "note" }, words.shelf.readingRuns);
  const section = html("div", {}, none, body, removed.element);
  const element = html(
    "div",
    {},
    html("header", { class: "sheet-head" }, html("h1", { id: "sheet-title", tabindex: -1 }, words.frame.runs)),
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
      find.hidden = table.hidden = runs.length === 0;
      // The last run of all may have been removed by mistake too.
      body.hidden = runs.length === 0 && library.removed.length === 0;
      // A view taken back by the browser's own history keeps what was typed.
      if (search.value !== library.search) search.value = library.search;
      const rows = listed(runs, library);
      found.textContent =
        library.search.trim() === ""
          ? fillText(words.library.inAll, { n: whole(runs.length) })
          : fillText(words.library.found, { n: whole(rows.length), all: whole(runs.length) });
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
        ? html("p", { class: "note" }, words.library.choose)
        : undoBar(removed.length, busy, actions),
    ];
  const goingOn = chosen.some(({ state }) => state === "running" || state === "waiting");
  const [first, second] = picked;
  return [
    html(
      "p",
      { class: "buttons" },
      html("strong", {}, fillText(words.library.chosen, { n: String(chosen.length) })),
      chosen.length === 2
        ? html(
            "a",
            { class: "button", id: "compare", href: writeAddress({ kind: "comparison", id: first!, with: second! }) },
            words.library.compare,
          )
        : html("span", { class: "note" }, chosen.length === 1 ? words.library.oneMore : words.library.onlyTwo),
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
        goingOn ? words.library.removeBlocked : words.library.remove,
      ),
      html(
        "button",
        { type: "button", class: "quiet", id: "pick-none", onclick: () => actions.look({ picked: [] }) },
        words.library.chooseNone,
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
    html("strong", {}, counted(words.library.removed, count)),
    html(
      "button",
      { type: "button", class: "quiet", id: "undo-removal", disabled: busy, onclick: () => void undoRemoval() },
      words.library.undo,
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
    html("label", { for: "run-note" }, words.library.note),
    input,
    html("button", { type: "submit", class: "quiet", id: "keep-note" }, words.library.keepNote),
  );
}

function runTable(rows: readonly RunHead[], view: LibraryView, actions: Actions): HTMLElement[] {
  if (rows.length === 0) return [html("p", { class: "note" }, words.library.noneFound)];
  const left = rows.length - view.most;
  return [
    html(
      "table",
      { class: "listing", "aria-label": words.library.runs, role: "table" },
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
              fillText(words.library.more, { n: whole(left) }),
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
    html("th", { scope: "col", role: "columnheader", class: "of-trials" }, words.library.trials),
    cell("date"),
  );
}

function row(run: RunHead, { picked }: LibraryView, { choose }: Actions): HTMLElement {
  const chosen = picked.includes(run.id);
  const { id, title, study, model, state, verdict, note, notKept, unreadable, trials, startedAt } = run;
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
        "aria-label": fillText(words.library.pick, { title, when: when(startedAt) }),
        onchange: () => choose(id),
      }),
    ),
    html("td", { role: "cell", class: "of-verdict" }, verdictCell(run)),
    html(
      "th",
      { scope: "row", role: "rowheader", class: "of-title" },
      html(
        "a",
        { href: writeAddress({ kind: "run", id, measurand: null }), id: `kept-${id}`, lang: titleLanguage(study) },
        title,
      ),
      html("span", { class: "note" }, html("code", {}, model)),
      note == null ? null : html("span", { class: "remark" }, note),
      unreadable === undefined ? null : html("span", { class: "remark" }, unreadableIn(unreadable)),
      notKept == null ? null : html("span", { class: "remark" }, html("strong", {}, words.library.notKept), notKept),
    ),
    html(
      "td",
      { role: "cell", class: "of-state", "data-state": state },
      verdict === null || state !== "finished"
        ? html("strong", {}, words.library.states[state])
        : words.library.states[state],
    ),
    html(
      "td",
      { role: "cell", class: "of-trials", "data-label": words.library.trials },
      trials === 0 ? "–" : whole(trials),
    ),
    html(
      "td",
      { role: "cell", class: "of-date", "data-label": words.library.started },
      html("time", { datetime: startedAt }, when(startedAt)),
    ),
  );
}

/** In words, what of a run was altered in the store. */
const unreadableIn = (fields: readonly string[]): string => {
  const { of, ...named } = words.library.unreadable;
  const nameOf = (field: string): string => named[field as keyof typeof named] ?? field;
  return fillText(of, { fields: fields.map(nameOf).join(", ") });
};

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
