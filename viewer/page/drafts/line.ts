import type { OwnStudy } from "../../api/own-studies.ts";
import { writeAddress } from "../address.ts";
import { html, redraw, type Child } from "../draw/node.ts";
import { keepAsCopy, keptDraft, watchDraft, whereDraftIs, type Whereabouts } from "./kept.ts";

const WORDS: Readonly<Record<Whereabouts, string>> = {
  unchanged: "What you write is kept as a draft until you run or discard it.",
  sending: "Keeping…",
  kept: "Kept as a draft.",
  here: "The server does not answer. What you write is kept in this browser, and sent when the server is back.",
  nowhere: "Neither the server nor this browser keeps what you write. Save it as a file before you leave.",
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
      html("a", { href: writeAddress({ kind: "own", id: null }), id: "all-drafts" }, "All drafts and studies"),
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
  const { name, versions } = study;
  const words: Child = kept.copy
    ? ["A copy: when you run it, it becomes a study of its own beside ", html("em", {}, name), "."]
    : [
        "When you run it, it becomes a new version of ",
        html("em", {}, name),
        `, which has ${versions === 1 ? "one version" : `${versions} versions`}. Earlier runs keep theirs.`,
      ];
  return [
    html("span", { id: "draft-becomes" }, words),
    html(
      "button",
      { type: "button", class: "quiet small", id: "draft-copy", onclick: () => keepAsCopy(!kept.copy) },
      kept.copy ? "Make it a new version instead" : "Make it a copy instead",
    ),
  ];
}
