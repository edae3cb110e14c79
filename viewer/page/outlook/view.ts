import type { OpenedOutlook, OutlookKind } from "../../api/outlooks.ts";
import { fillText } from "../../present/fill.ts";
import { exampleOutlook, RequestError, sendOutlook } from "../api.ts";
import { html, type Child } from "../draw/node.ts";
import { speech, words as firstWords } from "../language.ts";
import { words as pageWords } from "../later-words.ts";
import { troubleBox } from "../trouble.ts";
import { comparisonPart } from "./comparison.ts";
import { historyPart } from "./history.ts";
import type { Follow } from "./parts.ts";
import { planPart } from "./plan.ts";

const words = pageWords.outlook;

/** Width of a picture in a place. */
const pictureWidth = (place: HTMLElement): number => Math.max(300, Math.min(900, place.clientWidth || 660));

/** The room of plans, histories and comparisons of laboratories: opens one with its files and shows what it says. */
export function createOutlook(): { readonly show: () => HTMLElement } {
  const status = html("p", { class: "calibration-status", role: "status", "aria-live": "polite" });
  const trouble = html("div", {});
  const body = html("div", { id: "outlook-body" });
  /** What was asked for last: an answer to anything earlier is left. */
  let latest: object | null = null;

  const follow: Follow = {
    say(text) {
      trouble.replaceChildren();
      status.textContent = text;
    },
    fail(title, error) {
      status.textContent = "";
      const { message, problems } =
        error instanceof RequestError
          ? { message: error.fault?.message ?? error.message, problems: error.fault?.problems ?? [] }
          : { message: error instanceof Error ? error.message : String(error), problems: [] };
      const box = troubleBox({ title, message, english: true, problems }, () => trouble.replaceChildren());
      trouble.replaceChildren(box);
      box.scrollIntoView({ block: "nearest" });
    },
  };

  const open = async (said: string, ask: () => Promise<OpenedOutlook>): Promise<void> => {
    const own = {};
    latest = own;
    follow.say(said);
    try {
      const opened = await ask();
      if (own !== latest) return;
      const heading = html("h2", { id: "outlook-title", tabindex: -1 }, opened.title);
      body.replaceChildren(heading, contents(opened, pictureWidth(body), follow), filesOf(opened));
      follow.say(fillText(words.read, { title: opened.title }));
      heading.focus({ preventScroll: true });
    } catch (error) {
      if (own === latest) follow.fail(words.notRead, error);
    }
  };

  const chooser = html("input", {
    type: "file",
    id: "outlook-files",
    multiple: true,
    accept: ".json,.csv,.xlsx,.xml",
    onchange: () => {
      const chosen = [...(chooser.files ?? [])];
      if (chosen.length > 0)
        void open(fillText(words.reading, { count: speech.numbers.whole(chosen.length) }), () => sendOutlook(chosen));
      // The same files, once they were changed, are a choice again.
      chooser.value = "";
    },
  });
  const example = (kind: OutlookKind, text: string): Child =>
    html(
      "button",
      {
        type: "button",
        class: "quiet",
        id: `example-${kind}`,
        onclick: () => void open(words.readingExample, () => exampleOutlook(kind)),
      },
      text,
    );
  const element = html(
    "div",
    { class: "calibration outlook" },
    html("header", { class: "sheet-head" }, html("h1", { id: "sheet-title", tabindex: -1 }, firstWords.frame.outlook)),
    html("p", {}, words.intro),
    html(
      "p",
      { class: "open-calibration" },
      html("label", { for: "outlook-files" }, words.open),
      chooser,
      html("span", { class: "note" }, words.openNote),
    ),
    html(
      "p",
      { class: "downloads", role: "group", "aria-label": words.examples },
      example("plan", words.examplePlan),
      example("history", words.exampleHistory),
      example("comparison", words.exampleComparison),
    ),
    status,
    trouble,
    body,
  );
  return { show: () => element };
}

function contents(opened: OpenedOutlook, width: number, follow: Follow): HTMLElement {
  switch (opened.kind) {
    case "plan":
      return planPart(opened, width, follow);
    case "history":
      return historyPart(opened, width);
    case "comparison":
      return comparisonPart(opened);
  }
}

const filesOf = ({ files }: OpenedOutlook): HTMLElement =>
  html(
    "details",
    {},
    html("summary", {}, words.files),
    html(
      "ul",
      {},
      files.map(({ name, sha256 }) => html("li", {}, `${name}, SHA-256 ${sha256.slice(0, 16)}`)),
    ),
  );
