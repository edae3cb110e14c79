import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { counted } from "../counted.ts";
import type { OwnStudy } from "../../api/own-studies.ts";
import type { RunHead } from "../../api/runs.ts";
import { whole } from "../numbers.ts";
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
      html("h1", { id: "sheet-title", tabindex: -1 }, words.frame.ownStudies),
      html(
        "p",
        { class: "notes" },
        words.ownStudies.list,
        html("a", { href: writeAddress({ kind: "laboratory" }), id: "to-laboratory" }, words.frame.laboratory),
      ),
    ),
    html("section", { class: "panel" }, html("h2", {}, words.ownStudies.drafts), undo, drafts),
    html(
      "section",
      { class: "panel" },
      html("h2", {}, words.ownStudies.studies),
      html("p", { class: "find" }, html("label", { for: "find-own" }, words.ownStudies.find), search, found),
      studies,
    ),
  );
  let drawn: State | null = null;

  const drawStudies = (): void => {
    const { own, runs } = drawn!;
    if (own === null || runs === null) {
      studies.replaceChildren(html("p", { class: "note" }, words.shelf.reading));
      return;
    }
    const rows = foundStudies(own, runs, search.value);
    found.textContent =
      search.value.trim() === ""
        ? fillText(words.library.inAll, { n: whole(own.length) })
        : fillText(words.library.found, { n: whole(rows.length), all: whole(own.length) });
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
    ? html("p", { class: "note" }, words.ownStudies.readingDrafts)
    : drafts.length === 0
      ? html(
          "p",
          { id: "no-drafts" },
          words.ownStudies.none,
          html("a", { href: writeAddress({ kind: "new" }) }, words.start.fillIn),
          words.ownStudies.noneRest,
        )
      : draftItems(drafts, actions);

function studyItems(rows: readonly OwnStudy[], all: readonly OwnStudy[], runs: readonly RunHead[]): HTMLElement {
  if (rows.length === 0)
    return html("p", { id: "no-own" }, all.length === 0 ? words.ownStudies.noneYet : words.ownStudies.noneFound);
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
      fillText(words.ownStudies.counts, {
        versions: counted(words.ownStudies.versions, versions),
        runs: counted(words.ownStudies.runs, count),
      }),
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
