import { words } from "../language.ts";
import { writeAddress } from "../address.ts";
import { html } from "../draw/node.ts";

const ADDRESS = writeAddress({ kind: "help", word: null });

/** Adds the way to help beside the switch of colours, and the key ? from everywhere but a field. */
export function mountHelp(beside: HTMLElement): void {
  const link = html(
    "a",
    { class: "masthead-link", id: "to-help", href: ADDRESS, "aria-keyshortcuts": "?" },
    words.frame.help,
  );
  beside.before(link);
  const mark = (): void => {
    link.toggleAttribute("aria-current", false);
    if (location.hash.startsWith(ADDRESS)) link.setAttribute("aria-current", "page");
  };
  addEventListener("hashchange", mark);
  mark();
  addEventListener("keydown", (event) => {
    if (event.key !== "?" || event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target)) return;
    event.preventDefault();
    location.hash = ADDRESS;
  });
}

/** Whether a key goes into a text. */
const isTyping = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  (target.isContentEditable ||
    target.matches("textarea, select, input:not([type=checkbox], [type=radio], [type=file])"));
