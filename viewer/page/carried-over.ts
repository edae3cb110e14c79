import type { Shown } from "./shown.ts";

const PLACE = "trialband-carried-over";

/** What was typed into fields that nothing else keeps, and where. */
interface Typed {
  readonly hash: string;
  readonly fields: Readonly<Record<string, string>>;
}

type Field = HTMLInputElement | HTMLTextAreaElement;

/** Fields with text that is not the page's own. */
const typedFields = (): Field[] =>
  [...document.querySelectorAll<Field>("main :is(input, textarea)[id]")].filter(
    (field) => !/^(checkbox|radio|file|range)$/.test(field.type) && field.value !== field.defaultValue,
  );

/** What was opened from a file has no address: the browser's history carries it. */
const isOpened = (shown: Shown): boolean =>
  (shown.kind === "run" && shown.run.file !== undefined) || (shown.kind === "study" && shown.study.file !== null);

/** Before the page is loaded anew by itself: keeps what has no other place, for the page that comes. */
export function carryOver(shown: Shown): void {
  const fields = Object.fromEntries(typedFields().map(({ id, value }) => [id, value]));
  sessionStorage.setItem(PLACE, JSON.stringify({ hash: location.hash, fields } satisfies Typed));
  if (isOpened(shown)) history.replaceState({ opened: shown }, "");
}

/** What was opened before the page was loaded anew, or `null`. */
export const openedBefore = (): Shown | null => (history.state as { readonly opened?: Shown } | null)?.opened ?? null;

/** How long a field is waited for, in ms: its view may have to be loaded. */
const PATIENCE = 10_000;

/** Puts what was typed back into its fields, each as soon as it is there. */
export function putBackTyped(root: HTMLElement): void {
  const text = sessionStorage.getItem(PLACE);
  sessionStorage.removeItem(PLACE);
  if (text === null) return;
  const { hash, fields } = JSON.parse(text) as Typed;
  if (hash !== location.hash) return;
  const left = new Map(Object.entries(fields));
  const put = (): void => {
    for (const [id, value] of left) {
      const field = document.getElementById(id) as Field | null;
      if (field === null) continue;
      left.delete(id);
      if (field.value === value) continue;
      field.value = value;
      field.dispatchEvent(new Event("input", { bubbles: true }));
    }
    if (left.size === 0) observer.disconnect();
  };
  const observer = new MutationObserver(put);
  observer.observe(root, { childList: true, subtree: true });
  setTimeout(() => observer.disconnect(), PATIENCE);
  put();
}
