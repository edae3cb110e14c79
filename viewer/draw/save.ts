import { html } from "./node.ts";

/** A button that hands a JSON document to the reader as a file. */
export const saveButton = (id: string, label: string, fileName: string, value: unknown): HTMLButtonElement =>
  html(
    "button",
    {
      type: "button",
      class: "quiet",
      id,
      onclick: () => {
        const address = URL.createObjectURL(new Blob([`${JSON.stringify(value, null, 2)}\n`], { type: "application/json" }));
        html("a", { href: address, download: fileName }).click();
        URL.revokeObjectURL(address);
      },
    },
    label,
  );
