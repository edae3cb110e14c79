import { RequestError } from "./api.ts";
import { html } from "./draw/node.ts";
import { troubleBox } from "./trouble.ts";

/** What a part of a room does with the room's line of progress: says how far it is, or why it could not go on. */
export interface Follow {
  readonly say: (text: string) => void;
  readonly fail: (title: string, error: unknown) => void;
}

/** The line of progress of a room that reads files, and the place for what went wrong. */
export function createProgress(): Follow & { readonly status: HTMLElement; readonly trouble: HTMLElement } {
  const status = html("p", { class: "calibration-status", role: "status", "aria-live": "polite" });
  const trouble = html("div", {});
  return {
    status,
    trouble,
    say: (text) => {
      trouble.replaceChildren();
      status.textContent = text;
    },
    fail: (title, error) => {
      status.textContent = "";
      const fault = error instanceof RequestError ? error.fault : null;
      const message = fault?.message ?? (error instanceof Error ? error.message : String(error));
      const box = troubleBox({ title, message, english: true, problems: fault?.problems ?? [] }, () =>
        trouble.replaceChildren(),
      );
      trouble.replaceChildren(box);
      box.scrollIntoView({ block: "nearest" });
    },
  };
}

/** The field by which a document is opened with all files that it names. */
export function filesChooser(
  id: string,
  words: { readonly open: string; readonly openNote: string },
  open: (chosen: readonly File[]) => void,
): HTMLElement {
  const chooser = html("input", {
    type: "file",
    id,
    multiple: true,
    accept: ".json,.csv,.xlsx,.xml",
    onchange: () => {
      const chosen = [...(chooser.files ?? [])];
      if (chosen.length > 0) open(chosen);
      // The same files, once they were changed, are a choice again.
      chooser.value = "";
    },
  });
  return html(
    "p",
    { class: "open-calibration" },
    html("label", { for: id }, words.open),
    chooser,
    html("span", { class: "note" }, words.openNote),
  );
}

/** The files that were read, with the beginning of each digest. */
export const filesRead = (
  title: string,
  files: readonly { readonly name: string; readonly sha256: string }[],
): HTMLElement =>
  html(
    "details",
    {},
    html("summary", {}, title),
    html(
      "ul",
      {},
      files.map(({ name, sha256 }) => html("li", {}, `${name}, SHA-256 ${sha256.slice(0, 16)}`)),
    ),
  );
