import { words } from "./language.ts";
import { html } from "./draw/node.ts";

const CHOICES = {
  system: words.frame.themes.system,
  light: words.frame.themes.light,
  dark: words.frame.themes.dark,
} as const;
type Theme = keyof typeof CHOICES;
const PLACE = "trialband-theme";

const isTheme = (name: string | null): name is Theme => name !== null && Object.hasOwn(CHOICES, name);

/** The choice made earlier; a browser that keeps nothing follows the system. */
function remembered(): Theme {
  try {
    const name = localStorage.getItem(PLACE);
    return isTheme(name) ? name : "system";
  } catch {
    return "system";
  }
}

function show(theme: Theme): void {
  if (theme === "system") delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = theme;
}

/** Puts the switch of the page's colours into its fieldset. */
export function mountTheme(fieldset: Element): void {
  const now = remembered();
  show(now);
  for (const [theme, label] of Object.entries(CHOICES) as [Theme, string][]) {
    const id = `theme-${theme}`;
    fieldset.append(
      html("input", {
        type: "radio",
        name: "theme",
        id,
        checked: theme === now,
        onchange: () => {
          show(theme);
          try {
            localStorage.setItem(PLACE, theme);
          } catch {
            // A browser may keep nothing: the choice then holds until the page is left.
          }
        },
      }),
      html("label", { for: id }, label),
    );
  }
}
