import { html } from "./node.ts";

/** Hands something to the reader as a file. */
export function saveFile(fileName: string, content: Blob | string, type = "text/plain"): void {
  const blob = typeof content === "string" ? new Blob([content], { type }) : content;
  const address = URL.createObjectURL(blob);
  html("a", { href: address, download: fileName }).click();
  // The browser reads the file after the click has returned.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** A button that hands a JSON document to the reader as a file. */
export const saveButton = (id: string, label: string, fileName: string, value: unknown): HTMLButtonElement =>
  html(
    "button",
    {
      type: "button",
      class: "quiet",
      id,
      onclick: () => saveFile(fileName, `${JSON.stringify(value, null, 2)}\n`, "application/json"),
    },
    label,
  );
