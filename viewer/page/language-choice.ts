import type { Language } from "../present/messages/index.ts";
import { html } from "./draw/node.ts";
import { words } from "./language.ts";

const PLACE = "trialband-language";

/** What each language calls itself: a reader finds it, whatever the page speaks. */
export const LANGUAGES = { en: "English", de: "Deutsch" } as const satisfies Readonly<Record<Language, string>>;

const isLanguage = (name: string): name is Language => Object.hasOwn(LANGUAGES, name);

/** The choice made earlier; `null` if there is none, or the browser keeps nothing. */
function remembered(): Language | null {
  try {
    const name = localStorage.getItem(PLACE);
    return name !== null && isLanguage(name) ? name : null;
  } catch {
    return null;
  }
}

/** The first of a reader's languages that the page speaks; English if it speaks none. @param wanted "de-AT", best first */
export const languageFor = (wanted: readonly string[]): Language =>
  wanted.map((tag) => tag.split("-")[0]!.toLowerCase()).find(isLanguage) ?? "en";

/** The language of the page: the one chosen here before, or else the browser's. */
export const chosenLanguage = (): Language => remembered() ?? languageFor(navigator.languages);

/**
 * Puts the switch of the language into its fieldset. Another language loads the page anew.
 *
 * @param leave keeps what a reload would lose
 */
export function mountLanguage(fieldset: Element, now: Language, leave: () => void): void {
  for (const [language, name] of Object.entries(LANGUAGES) as [Language, string][]) {
    const id = `language-${language}`;
    fieldset.append(
      html("input", {
        type: "radio",
        name: "language",
        id,
        checked: language === now,
        onchange: () => {
          try {
            localStorage.setItem(PLACE, language);
          } catch {
            // Without a memory the page would come back as it was.
            return;
          }
          leave();
          location.reload();
        },
      }),
      html(
        "label",
        { for: id, lang: language, title: name },
        language.toUpperCase(),
        html("span", { class: "unseen" }, ` ${name}`),
      ),
    );
  }
  fieldset.querySelector("legend")!.textContent = words.frame.language;
}
