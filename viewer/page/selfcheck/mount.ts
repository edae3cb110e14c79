import { words } from "../language.ts";
import { html } from "../draw/node.ts";

export const ADDRESS = "#selfcheck";
const TITLE = words.frame.selfcheckTitle;

/**
 * Adds the view at `#selfcheck` to the sheet, and a way to it beside the switch of colours. While it is shown the rest of
 * the sheet steps aside; a check that goes on stays while the reader looks elsewhere on the page.
 */
export function mountSelfcheck(sheet: HTMLElement, beside: HTMLElement): void {
  const link = html("a", { class: "masthead-link", id: "to-selfcheck", href: ADDRESS }, words.frame.selfcheck);
  beside.before(link);
  let view: HTMLElement | null = null;
  let missing: HTMLElement | null = null;
  const titled = document.querySelector("title")!;

  const show = async (): Promise<void> => {
    const shown = location.hash === ADDRESS;
    link.toggleAttribute("aria-current", false);
    if (shown) link.setAttribute("aria-current", "page");
    if (!shown) {
      delete sheet.dataset["shows"];
      return;
    }
    sheet.dataset["shows"] = "selfcheck";
    document.title = TITLE;
    missing?.remove();
    try {
      const [{ createSelfcheckView }, { checkSpeech }] = await Promise.all([
        import("./view.ts"),
        import("./check-speech.ts"),
      ]);
      const said = await checkSpeech();
      view ??= sheet.appendChild(createSelfcheckView(said));
    } catch {
      missing = sheet.appendChild(notLoaded());
    }
    if (location.hash !== ADDRESS || view === null) return;
    document.getElementById("selfcheck-title")!.focus({ preventScroll: true });
    scrollTo({ top: 0 });
  };

  // The page names itself after what its state holds, which knows nothing of this view.
  new MutationObserver(() => {
    if (location.hash === ADDRESS && document.title !== TITLE) document.title = TITLE;
  }).observe(titled, { childList: true });
  addEventListener("hashchange", () => void show());
  void show();
}

/** In place of the view while its code cannot be had. */
const notLoaded = (): HTMLElement =>
  html(
    "section",
    { class: "trouble selfcheck", "aria-labelledby": "selfcheck-missing" },
    html("h1", { id: "selfcheck-missing" }, words.rooms.notLoaded),
    html("p", {}, words.rooms.loadAgain),
  );
