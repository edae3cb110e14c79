import { filled } from "../../present/fill.ts";
import { whole } from "../numbers.ts";
import { words as pageWords } from "../language.ts";
import type { OwnStudy } from "../../api/own-studies.ts";
import { writeAddress } from "../address.ts";
import { html, redraw, type Child } from "../draw/node.ts";
import { keepAsCopy, keptDraft, watchDraft, whereDraftIs, type Whereabouts } from "./kept.ts";

const WORDS: Readonly<Record<Whereabouts, string>> = {
  unchanged: pageWords.drafts.where.unchanged,
  sending: pageWords.drafts.where.sending,
  kept: pageWords.drafts.where.kept,
  here: pageWords.drafts.where.here,
  nowhere: pageWords.drafts.where.nowhere,
};

/** Says where the draft is kept and what it becomes when it is run. */
export function createDraftLine(): {
  readonly element: HTMLElement;
  readonly show: (own: readonly OwnStudy[] | null) => void;
} {
  const state = html("span", { id: "draft-kept", role: "status" });
  const becomes = html("p", { class: "buttons draft-becomes" });
  const element = html(
    "div",
    { class: "draft-line" },
    becomes,
    html(
      "p",
      { class: "note" },
      state,
      " ",
      html("a", { href: writeAddress({ kind: "own", id: null }), id: "all-drafts" }, pageWords.drafts.all),
    ),
  );
  let studies: readonly OwnStudy[] | null = null;
  const draw = (): void => {
    const words = WORDS[whereDraftIs()];
    if (state.textContent !== words) state.textContent = words;
    redraw(becomes, () => becomes.replaceChildren(...becomesWhat(studies)));
    becomes.hidden = becomes.childElementCount === 0;
  };
  watchDraft(draw);
  draw();
  return {
    element,
    show: (own) => {
      studies = own;
      draw();
    },
  };
}

function becomesWhat(studies: readonly OwnStudy[] | null): HTMLElement[] {
  const kept = keptDraft();
  if (kept === null) return [];
  const title = kept.form.title.trim();
  const study = studies?.find(({ id, name }) => (kept.own === null ? name === title && title !== "" : id === kept.own));
  if (study === undefined) return [];
  const name = html("em", {}, study.name);
  const { copy, versions } = pageWords.drafts;
  const words: Child = kept.copy
    ? filled<Node | string>(copy, { name })
    : filled<Node | string>(study.versions === 1 ? versions.one : versions.other, { name, n: whole(study.versions) });
  return [
    html("span", { id: "draft-becomes" }, words),
    html(
      "button",
      { type: "button", class: "quiet small", id: "draft-copy", onclick: () => keepAsCopy(!kept.copy) },
      kept.copy ? pageWords.drafts.asVersion : pageWords.drafts.asCopy,
    ),
  ];
}
