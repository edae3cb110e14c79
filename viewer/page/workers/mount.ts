import { readAbout, RequestError } from "../api.ts";
import { writeAddress } from "../address.ts";
import { html } from "../draw/node.ts";
import { words } from "../language.ts";

const ADDRESS = writeAddress({ kind: "workers" });

/** Adds the way to the workers beside the switch of colours, if runs are drawn by the workers of a queue. */
export function mountWorkers(beside: HTMLElement): void {
  const link = html("a", { class: "masthead-link", id: "to-workers", href: ADDRESS }, words.frame.workers);
  const mark = (): void => {
    if (location.hash === ADDRESS) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  };
  const add = async (): Promise<void> => {
    try {
      if (!(await readAbout()).queue) return;
    } catch (error) {
      // A server that does not answer says so where its lists would stand.
      if (error instanceof RequestError) return;
      throw error;
    }
    beside.before(link);
    addEventListener("hashchange", mark);
    mark();
  };
  void add();
}
