import type { OwnStudy } from "../../api/own-studies.ts";
import type { RunHead } from "../../api/runs.ts";
import { whole } from "../../present/numbers.ts";
import type { Actions } from "../actions/index.ts";
import { writeAddress } from "../address.ts";
import { draftItems, undoBar } from "../drafts/list.ts";
import { html, redraw, type Child } from "../draw/node.ts";
import { when } from "../library/listing.ts";
import type { State } from "../state.ts";
import { runMark } from "./run-mark.ts";
import { foundStudies } from "./search.ts";

/** The laboratory's own studies and the drafts: found, gone on with, and led to what each has. */
export function createOwnStudies(actions: Actions): { readonly show: (state: State) => HTMLElement } {
  const search = html("input", {
    type: "search",
    id: "find-own",
    autocomplete: "off",
    spellcheck: "false",
    oninput: () => drawStudies(),
  });
  const found = html("p", { class: "note", id: "own-found", role: "status" });
  const studies = html("div", {});
  const drafts = html("div", {});
  const undo = html("div", {});
  const element = html(
    "div",
    { class: "own-studies" },
    html(
      "header",
      { class: "sheet-head" },
      html("h1", { id: "sheet-title", tabindex: -1 }, "Studies of your own"),
      html(
        "p",
        { class: "notes" },
        "Every study that was run here, with its versions and runs, and every draft that was not run yet. ",
        html("a", { href: writeAddress({ kind: "laboratory" }), id: "to-laboratory" }, "Defaults of the laboratory"),
      ),
    ),
    html("section", { class: "panel" }, html("h2", {}, "Drafts"), undo, drafts),
    html(
      "section",
      { class: "panel" },
      html("h2", {}, "Studies"),
      html("p", { class: "find" }, html("label", { for: "find-own" }, "Find a study or a tag"), search, found),
      studies,
    ),
  );
  let drawn: State | null = null;

  const drawStudies = (): void => {
    const { own, runs } = drawn!;
    if (own === null || runs === null) {
      studies.replaceChildren(html("p", { class: "note" }, "Reading the list of studies…"));
      return;
    }
    const rows = foundStudies(own, runs, search.value);
    found.textContent =
      search.value.trim() === ""
        ? `${whole(own.length)} in all`
        : `${whole(rows.length)} of ${whole(own.length)} found`;
    redraw(studies, () => studies.replaceChildren(studyItems(rows, own, runs)));
  };

  return {
    show: (state) => {
      const { own, runs, drafts: written, discarded } = state;
      if (drawn?.own === own && drawn.runs === runs && drawn.drafts === written && drawn.discarded === discarded)
        return element;
      drawn = state;
      redraw(drafts, () => drafts.replaceChildren(draftPart(written, actions)));
      redraw(undo, () => undo.replaceChildren(...undoBar(discarded, actions)));
      drawStudies();
      return element;
    },
  };
}

const draftPart = (drafts: State["drafts"], actions: Actions): HTMLElement =>
  drafts === null
    ? html("p", { class: "note" }, "Reading the list of drafts…")
    : drafts.length === 0
      ? html(
          "p",
          { id: "no-drafts" },
          "None. ",
          html("a", { href: writeAddress({ kind: "new" }) }, "Fill in a budget"),
          ", and it is kept here until you run or discard it.",
        )
      : draftItems(drafts, actions);

function studyItems(rows: readonly OwnStudy[], all: readonly OwnStudy[], runs: readonly RunHead[]): HTMLElement {
  if (rows.length === 0)
    return html(
      "p",
      { id: "no-own" },
      all.length === 0
        ? "None yet. Import a budget table or fill one in: once it is run, its study is here."
        : "No study has all of these words in its name, tags, model or runs.",
    );
  return html(
    "ul",
    { class: "own-list", id: "own-list" },
    rows.map((study) => html("li", {}, studyItem(study, runs))),
  );
}

function studyItem({ id, name, tags, versions, runs: count, last }: OwnStudy, runs: readonly RunHead[]): Child {
  const latest = runs.find((run) => run.own === id);
  return [
    html("a", { href: writeAddress({ kind: "own", id }), id: `own-${id}` }, name),
    latest === undefined ? null : runMark(latest),
    html(
      "span",
      { class: "note" },
      `${versions === 1 ? "1 version" : `${versions} versions`}, ${count === 1 ? "1 run" : `${whole(count)} runs`}, last `,
      html("time", { datetime: last }, when(last)),
    ),
    tags.length === 0
      ? null
      : html(
          "span",
          { class: "tags" },
          tags.map((tag) => html("span", { class: "tag" }, tag)),
        ),
  ];
}
