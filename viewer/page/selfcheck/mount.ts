import { words } from "../language.ts";
import { html } from "../draw/node.ts";
import { createSelfcheckView } from "./view.ts";

export const ADDRESS = "#selfcheck";
const TITLE = words.selfcheck.title;

/**
 * Adds the view at `#selfcheck` to the sheet, and a way to it beside the switch of colours. While it is shown the rest of
 * the sheet steps aside; a check that goes on stays while the reader looks elsewhere on the page.
 */
export function mountSelfcheck(sheet: HTMLElement, beside: HTMLElement): void {
  const link = html("a", { class: "masthead-link", id: "to-selfcheck", href: ADDRESS }, words.selfcheck.link);
  beside.before(link);
  let view: HTMLElement | null = null;
  const titled = document.querySelector("title")!;

  const show = (): void => {
    const shown = location.hash === ADDRESS;
    link.toggleAttribute("aria-current", false);
    if (shown) link.setAttribute("aria-current", "page");
    if (!shown) {
      delete sheet.dataset["shows"];
      return;
    }
    view ??= sheet.appendChild(createSelfcheckView());
    sheet.dataset["shows"] = "selfcheck";
    document.title = TITLE;
    document.getElementById("selfcheck-title")!.focus({ preventScroll: true });
    scrollTo({ top: 0 });
  };

  // The page names itself after what its state holds, which knows nothing of this view.
  new MutationObserver(() => {
    if (location.hash === ADDRESS && document.title !== TITLE) document.title = TITLE;
  }).observe(titled, { childList: true });
  addEventListener("hashchange", show);
  show();
}
