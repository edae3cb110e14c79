import { words } from "../later-words.ts";
import { writeAddress } from "../address.ts";
import { html, type Child } from "../draw/node.ts";

/** A way through the page, step by step. */
const STEPS: readonly (readonly [string, Child])[] = [
  [
    words.help.bring,
    [
      words.help.bring1,
      html("a", { href: writeAddress({ kind: "new" }) }, words.help.bringNew),
      words.help.bring2,
      html("a", { href: writeAddress({ kind: "surveys" }) }, words.help.bringSurvey),
      words.help.bring3,
    ],
  ],
  [words.help.check, words.help.checkText],
  [words.help.run, words.help.runText],
  [words.help.read, words.help.readText],
  [
    words.help.keep,
    [words.help.keep1, html("a", { href: writeAddress({ kind: "runs" }) }, words.help.keepRuns), words.help.keep2],
  ],
];

const KEYS: readonly (readonly [readonly string[], string])[] = [
  [["?"], words.help.keys.help],
  [[words.help.keys.ctrl, words.help.keys.enter], words.help.keys.run],
  [[words.help.keys.tab, words.help.keys.shiftTab], words.help.keys.next],
  [[words.help.keys.alt, "←"], words.help.keys.back],
];

/** How to work with the page, for who sees it for the first time. */
export const guide = (): HTMLElement[] => [
  html(
    "section",
    { class: "panel" },
    html("h2", {}, words.help.guide),
    html(
      "ol",
      { class: "guide" },
      STEPS.map(([title, text]) => html("li", {}, html("strong", {}, title), html("span", {}, text))),
    ),
    html("p", { class: "note" }, words.help.safety),
  ),
  html(
    "section",
    { class: "panel" },
    html("h2", {}, words.help.keyTable),
    html(
      "dl",
      { class: "help-keys" },
      KEYS.map(([keys, what]) =>
        html(
          "div",
          {},
          html(
            "dt",
            {},
            keys.map((key, i) => [i === 0 ? "" : " ", html("kbd", {}, key)]),
          ),
          html("dd", {}, what),
        ),
      ),
    ),
  ),
];
