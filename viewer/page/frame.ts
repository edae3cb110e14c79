import { words } from "./language.ts";

/** Writes what the page says around everything: elements of its document name the word they show. */
export function writeFrame(): void {
  const frame: Readonly<Record<string, unknown>> = words.frame;
  for (const element of document.querySelectorAll<HTMLElement>("[data-words]"))
    element.textContent = String(frame[element.dataset["words"]!]);
  document.getElementById("shelf")!.setAttribute("aria-label", words.frame.shelf);
}
