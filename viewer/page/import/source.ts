import { words } from "../later-words.ts";
import { html } from "../draw/node.ts";

/** Where a table comes from: chosen, dropped or pasted. */
export function sourcePart(open: (file: File) => void, openAll: (files: readonly File[]) => void): HTMLElement {
  const input = html("input", {
    type: "file",
    id: "import-file",
    accept: ".csv,.tsv,.txt,.xlsx,.xlsm,text/csv,text/plain",
    onchange: () => {
      const files = [...(input.files ?? [])];
      // Emptied, so that the same file can be chosen again once it is mended.
      input.value = "";
      if (files.length > 0) openAll(files);
    },
  });
  const read = (text: string): void => {
    if (text.trim() !== "") open(new File([text], words.import.pastedName, { type: "text/plain" }));
  };
  const pasted = html("textarea", {
    id: "import-text",
    rows: 3,
    spellcheck: "false",
    "aria-describedby": "import-text-help",
    // What is pasted is in the field only after the event.
    onpaste: () => setTimeout(() => read(pasted.value)),
  });
  return html(
    "section",
    { class: "import-source", "aria-label": words.import.table },
    html("p", { class: "field" }, html("label", { for: "import-file" }, words.import.chooseFile), input),
    html(
      "p",
      { class: "field" },
      html("label", { for: "import-text" }, words.import.orPaste),
      pasted,
      html("span", { class: "note", id: "import-text-help" }, words.import.pasteHelp),
      html(
        "button",
        { type: "button", class: "small", id: "import-read", onclick: () => read(pasted.value) },
        words.import.readPasted,
      ),
    ),
  );
}
