import { words } from "./language.ts";
import type { Problem } from "../../engine/index.ts";
import { fromEnglish } from "./draw/from-english.ts";
import { html, type Child } from "./draw/node.ts";
import type { Trouble } from "./state.ts";

/**
 * Problems as a list: where, what was got there, what is expected.
 *
 * @param worded shows what the server says, which is English; what the page says itself stands as it is
 */
export const problemList = (problems: readonly Problem[], worded: (text: string) => Child = fromEnglish): HTMLElement =>
  html(
    "ul",
    { class: "problems" },
    problems.map(({ place, value, accepted }) =>
      html(
        "li",
        {},
        html("code", { class: "place" }, place === "" ? words.frame.wholeDocument : place),
        html(
          "dl",
          {},
          html("dt", {}, words.frame.got),
          html("dd", {}, worded(value)),
          html("dt", {}, words.frame.expected),
          html("dd", {}, worded(accepted)),
        ),
      ),
    ),
  );

const asItIs = (text: string): Child => text;

/** What stands in the way, with a button to put it aside. */
export const troubleBox = ({ title, message, english, problems }: Trouble, dismiss: () => void): HTMLElement =>
  html(
    "section",
    { class: "trouble", "aria-labelledby": "trouble-title", id: "trouble" },
    html("h2", { id: "trouble-title" }, title),
    html("p", {}, english === true ? fromEnglish(message) : message),
    problems.length > 0 ? problemList(problems, english === true ? fromEnglish : asItIs) : null,
    html("button", { type: "button", class: "quiet", id: "dismiss", onclick: dismiss }, words.frame.dismiss),
  );
