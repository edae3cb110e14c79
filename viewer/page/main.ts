import { chosenLanguage } from "./language-choice.ts";
import { speak } from "./language.ts";

/** Pauses before code that did not come is asked for again, in ms: a connection may be lost for a moment. */
const PAUSES = [300, 1000, 3000];

/** Loads the code of the page. @throws what the browser said of the last try */
async function load(pauses: readonly number[]): Promise<typeof import("./page.ts")> {
  const [pause, ...later] = pauses;
  try {
    // Texts are read as modules are loaded: the language of the page is set before anything else of it is there.
    await speak(chosenLanguage());
    return await import("./page.ts");
  } catch (error) {
    if (pause === undefined) throw error;
    await new Promise((resolve) => setTimeout(resolve, pause));
    return load(later);
  }
}

/** Says in the page's own text, in both languages, that its code has not come: no words have come either. */
function sayNotLoaded(error: unknown): void {
  console.error(error);
  document.getElementById("loading")!.remove();
  document.getElementById("not-loaded")!.hidden = false;
  document.getElementById("load-again")!.addEventListener("click", () => location.reload());
}

await load(PAUSES).then(({ openPage }) => openPage(), sayNotLoaded);
