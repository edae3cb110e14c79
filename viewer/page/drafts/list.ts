import { words } from "../language.ts";
import { fillText } from "../../present/fill.ts";
import { counted } from "../counted.ts";
import type { DraftHead } from "../../api/drafts.ts";
import type { Actions } from "../actions/index.ts";
import { writeAddress } from "../address.ts";
import { html } from "../draw/node.ts";

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

/** How long ago something was, in one number and a word. @param now milliseconds since 1970 */
export function age(moment: string, now: number): string {
  const past = Math.max(0, now - new Date(moment).getTime());
  const [count, word]: [number, "minute" | "hour" | "day"] =
    past < HOUR
      ? [Math.floor(past / MINUTE), "minute"]
      : past < DAY
        ? [Math.floor(past / HOUR), "hour"]
        : [Math.floor(past / DAY), "day"];
  return past < MINUTE ? words.drafts.justNow : counted(words.drafts.ages[word], count);
}

export const titleOfDraft = ({ title }: Pick<DraftHead, "title">): string =>
  title.trim() === "" ? words.drafts.untitled : title;

/** The drafts with their age, each to go on with or to discard. */
export const draftItems = (drafts: readonly DraftHead[], { discardDraft }: Actions): HTMLElement =>
  html(
    "ul",
    { class: "drafts", id: "drafts" },
    drafts.map((draft) => {
      const title = titleOfDraft(draft);
      return html(
        "li",
        {},
        html("a", { href: writeAddress({ kind: "draft", id: draft.id }), id: `draft-${draft.id}` }, title),
        html(
          "time",
          { class: "note", datetime: draft.changed },
          fillText(words.drafts.changed, { age: age(draft.changed, Date.now()) }),
        ),
        html(
          "button",
          {
            type: "button",
            class: "quiet small",
            id: `discard-${draft.id}`,
            "aria-label": fillText(words.drafts.discardOne, { title }),
            onclick: () => void discardDraft(draft),
          },
          words.drafts.discard,
        ),
      );
    }),
  );

/** Says which draft was discarded, with the way back. */
export const undoBar = (discarded: DraftHead | null, { undoDiscarding }: Actions): HTMLElement[] =>
  discarded === null
    ? []
    : [
        html(
          "p",
          { class: "buttons", role: "status" },
          html("strong", {}, fillText(words.drafts.discarded, { title: titleOfDraft(discarded) })),
          html(
            "button",
            { type: "button", class: "quiet", id: "undo-discarding", onclick: () => void undoDiscarding() },
            words.library.undo,
          ),
        ),
      ];
