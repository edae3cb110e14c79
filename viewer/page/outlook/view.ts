import type { OpenedOutlook, OutlookKind } from "../../api/outlooks.ts";
import { fillText } from "../../present/fill.ts";
import { exampleOutlook, sendOutlook } from "../api.ts";
import { html, type Child } from "../draw/node.ts";
import { createProgress, filesChooser, filesRead, type Follow } from "../files-room.ts";
import { speech, words as firstWords } from "../language.ts";
import { words as pageWords } from "../later-words.ts";
import { comparisonPart } from "./comparison.ts";
import { historyPart } from "./history.ts";
import { planPart } from "./plan.ts";

const words = pageWords.outlook;

/** Width of a picture in a place. */
const pictureWidth = (place: HTMLElement): number => Math.max(300, Math.min(900, place.clientWidth || 660));

/** The room of plans, histories and comparisons of laboratories: opens one with its files and shows what it says. */
export function createOutlook(): { readonly show: () => HTMLElement } {
  const follow = createProgress();
  const body = html("div", { id: "outlook-body" });
  /** What was asked for last: an answer to anything earlier is left. */
  let latest: object | null = null;

  const open = async (said: string, ask: () => Promise<OpenedOutlook>): Promise<void> => {
    const own = {};
    latest = own;
    follow.say(said);
    try {
      const opened = await ask();
      if (own !== latest) return;
      const heading = html("h2", { id: "outlook-title", tabindex: -1 }, opened.title);
      body.replaceChildren(heading, contents(opened, pictureWidth(body), follow), filesRead(words.files, opened.files));
      follow.say(fillText(words.read, { title: opened.title }));
      heading.focus({ preventScroll: true });
    } catch (error) {
      if (own === latest) follow.fail(words.notRead, error);
    }
  };

  const chooser = filesChooser("outlook-files", words, (chosen) => {
    void open(fillText(words.reading, { count: speech.numbers.whole(chosen.length) }), () => sendOutlook(chosen));
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
    chooser,
    html(
      "p",
      { class: "downloads", role: "group", "aria-label": words.examples },
      example("plan", words.examplePlan),
      example("history", words.exampleHistory),
      example("comparison", words.exampleComparison),
    ),
    follow.status,
    follow.trouble,
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
