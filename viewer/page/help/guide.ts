import { writeAddress } from "../address.ts";
import { html, type Child } from "../draw/node.ts";

/** A way through the page, step by step. */
const STEPS: readonly (readonly [string, Child])[] = [
  [
    "Bring a budget",
    [
      "Open the table that you keep (CSV or XLSX), fill in a ",
      html("a", { href: writeAddress({ kind: "new" }) }, "new budget"),
      ", or evaluate the ",
      html("a", { href: writeAddress({ kind: "surveys" }) }, "survey of a bath"),
      ". What is not complete yet is kept as a draft.",
    ],
  ],
  [
    "Check how it was read",
    "Every row is shown as it was understood. A row that cannot be used is named with what is expected there.",
  ],
  [
    "Run it",
    "The linear budget and the trials are computed on this machine, and the sheet fills meanwhile. Nothing leaves the laboratory.",
  ],
  [
    "Read the verdict",
    "The sheet says whether the linear budget is validated and why, which input decides it, and what to do next.",
  ],
  [
    "Keep and show it",
    [
      "Each run is kept with the version of the study that it was made from. Print the sheet, compare two ",
      html("a", { href: writeAddress({ kind: "runs" }) }, "runs"),
      ", or edit the study and run it again.",
    ],
  ],
];

const KEYS: readonly (readonly [readonly string[], string])[] = [
  [["?"], "this page, from everywhere but a field"],
  [["Ctrl", "Enter"], "run the study that is shown or written"],
  [["Tab", "Shift + Tab"], "the next and the last field, link or button"],
  [["Alt", "←"], "back to what was shown before"],
];

/** How to work with the page, for who sees it for the first time. */
export const guide = (): HTMLElement[] => [
  html(
    "section",
    { class: "panel" },
    html("h2", {}, "From a budget to its verdict"),
    html(
      "ol",
      { class: "guide" },
      STEPS.map(([title, text]) => html("li", {}, html("strong", {}, title), html("span", {}, text))),
    ),
    html(
      "p",
      { class: "note" },
      "Hot oil, flash points, fumes and cold hurt people. The fluid’s safety data sheet, local codes and qualified persons decide about work at a bath.",
    ),
  ),
  html(
    "section",
    { class: "panel" },
    html("h2", {}, "Keys"),
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
