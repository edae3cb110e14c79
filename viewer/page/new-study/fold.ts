import { html, type Child } from "../draw/node.ts";

/** A part of the form that is folded away until it is used; its summary says what stands in it. */
export interface Fold {
  readonly element: HTMLDetailsElement;
  /** @param words what the part states now, after its name */
  readonly say: (words: string) => void;
}

export function fold(id: string, name: string, open: boolean, ...children: readonly Child[]): Fold {
  const now = html("span", { class: "note" });
  return {
    element: html(
      "details",
      { class: "fold", id, open },
      html("summary", { id: `${id}-summary` }, html("strong", {}, name), " ", now),
      ...children,
    ),
    say: (words) => void (now.textContent = words),
  };
}
