import { chosenLanguage } from "./language-choice.ts";
import { speak } from "./language.ts";

// Texts are read as modules are loaded: the language of the page is set before anything else of it is there.
await speak(chosenLanguage());
(await import("./page.ts")).openPage();
