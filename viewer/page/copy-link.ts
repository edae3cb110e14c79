import { words } from "./language.ts";
import { html } from "./draw/node.ts";

/** A button that copies the address of what is shown, and what it says afterwards. */
export interface CopyLink {
  readonly button: HTMLButtonElement;
  /** Empty until the button was pressed; stands below the other parts of its row. */
  readonly answer: HTMLElement;
  /** Takes the answer back: the view is another now. */
  forget(): void;
}

/**
 * The address of a view brings back all of it: the run, the measurand and every choice of the panels. If the browser
 * refuses the clipboard the address stands ready in a field, to be copied by hand.
 *
 * @param address of the view as it is now
 */
export function createCopyLink(address: () => string = () => location.href): CopyLink {
  const answer = html("div", { class: "copied", role: "status" });
  const button = html(
    "button",
    {
      type: "button",
      class: "quiet",
      id: "copy-link",
      title: words.frame.copyTitle,
      onclick: () => void copy(),
    },
    words.frame.copyLink,
  );

  async function copy(): Promise<void> {
    const link = address();
    try {
      await navigator.clipboard.writeText(link);
      answer.replaceChildren(words.frame.copied);
    } catch {
      // No clipboard in an insecure context, or one that the reader or the browser's policy refuses.
      const field = html("input", {
        type: "text",
        id: "link-field",
        readonly: true,
        value: link,
        onfocus: () => field.select(),
      });
      answer.replaceChildren(html("label", { for: "link-field" }, words.frame.notCopied), field);
      field.focus();
    }
  }

  return { button, answer, forget: () => answer.replaceChildren() };
}
