import { html } from "./draw/node.ts";
import { words } from "./language.ts";

/** From this many parts on a sheet has contents. */
const LEAST = 4;

interface Part {
  readonly id: string;
  readonly title: string;
}

/** The parts of a long sheet, each a press away: on the screen alone, since paper is leafed through. */
export function createContents(): { readonly element: HTMLElement; readonly show: (parts: readonly Part[]) => void } {
  const list = html("ul", {});
  const element = html(
    "details",
    { class: "contents", id: "contents", hidden: true },
    html("summary", { id: "contents-summary" }, words.sheet.contents),
    list,
  );
  return {
    element,
    show: (parts) => {
      element.hidden = parts.length < LEAST;
      list.replaceChildren(
        ...parts.map(({ id, title }) =>
          html(
            "li",
            {},
            // An address after # names what is on the sheet, so that a link within it would lead away.
            html("button", { type: "button", class: "inline", id: `to-${id}`, onclick: () => goTo(id) }, title),
          ),
        ),
      );
    },
  };
}

function goTo(id: string): void {
  const title = document.getElementById(`title-${id}`);
  if (title === null) return;
  title.tabIndex = -1;
  title.scrollIntoView({ block: "start" });
  title.focus({ preventScroll: true });
}
