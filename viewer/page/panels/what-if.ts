import { fillText } from "../../present/fill.ts";
import { html } from "../draw/node.ts";
import { messages, words as pageWords } from "../language.ts";
import { whole } from "../numbers.ts";
import { FIRST_TRIALS } from "../what-if/protocol.ts";
import type { Panel, View } from "./panel.ts";

const words = messages.whatIfPanel;

type Opened = typeof import("./what-if-opened.ts");

/** The code of the opened panel, which a sheet does not wait for. */
let opened: Opened | null = null;

/** The last draw of an element while the code loads: the first thing to do when it is there. */
const waiting = new WeakMap<HTMLElement, () => void>();

/** Change an input and see at once what it does. */
export const whatIf: Panel = {
  id: "what-if",
  title: messages.panels.whatIf,
  // A model from a person's own file is known to the server alone.
  concludes: true,
  appliesTo: ({ study }) => !/\.(ts|mts|js|mjs)$/.test(study.model),
  render(element, record, name, view) {
    const draw = (): void => this.render(element, record, name, view);
    if (waiting.has(element)) waiting.set(element, draw);
    if (!view.provisional) {
      if (opened?.showOpened(element, record, name, view) === true) return;
      if (opened === null && isAskedFor(element, view)) {
        load(element, draw);
        // The button keeps the focus until what it opens is there.
        if (element.querySelector("#try-open") !== null) return;
      }
    }
    element.replaceChildren(...invitation(element, view, draw));
  },
};

const isAskedFor = ({ dataset }: HTMLElement, { reading }: View): boolean =>
  dataset.open !== undefined || reading.tries !== undefined || reading.pairs !== undefined;

function load(element: HTMLElement, draw: () => void): void {
  if (waiting.has(element)) return;
  waiting.set(element, draw);
  const drawLast = (): void => {
    const last = waiting.get(element);
    waiting.delete(element);
    if (element.isConnected) last?.();
  };
  import("./what-if-opened.ts").then(
    (code) => {
      opened = code;
      const focused = element.contains(document.activeElement);
      drawLast();
      // The reader pressed the button, which is gone: the first choice takes the focus in its place.
      if (focused) element.querySelector<HTMLElement>("select")?.focus();
    },
    () => {
      waiting.delete(element);
      delete element.dataset.open;
      element.querySelector("[role=alert]")?.remove();
      const { notLoaded, loadAgain } = pageWords.rooms;
      element.append(html("p", { class: "trouble small", role: "alert" }, `${notLoaded}. ${loadAgain}`));
    },
  );
}

function invitation(element: HTMLElement, { provisional }: View, begin: () => void): HTMLElement[] {
  return [
    html("p", {}, words.invitation),
    provisional
      ? html("p", { class: "note" }, words.later)
      : html(
          "p",
          { class: "buttons" },
          html(
            "button",
            {
              type: "button",
              id: "try-open",
              onclick: () => {
                element.dataset.open = "yes";
                begin();
                element.querySelector<HTMLElement>("select")?.focus();
              },
            },
            words.open,
          ),
          html("span", { class: "note" }, fillText(words.previewOf, { trials: whole(FIRST_TRIALS) })),
        ),
  ];
}
