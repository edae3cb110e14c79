import { titleLanguage } from "../draw/from-english.ts";
import { words } from "../language.ts";
import { lacking } from "../permission.ts";
import type { Actions } from "../actions/index.ts";
import { writeAddress } from "../address.ts";
import { html, redraw } from "../draw/node.ts";
import { verdictMark } from "../draw/swatch.ts";
import { outcome } from "../library/listing.ts";
import { standingOf } from "../../present/verdict.ts";
import type { State } from "../state.ts";

/** The study that `npm start` runs, so that its result is one click away. */
const EXAMPLE = "harrowfen/steriliser-134";

/** A result to look at: the newest of the example study, or the way to make one. */
export function createExample(actions: Actions): {
  readonly element: HTMLElement;
  readonly show: (state: State) => void;
} {
  const element = html("section", { class: "start-example", "aria-labelledby": "example-title" });
  let drawn: { readonly runs: State["runs"]; readonly busy: boolean } | null = null;
  return {
    element,
    show: ({ runs, busy }) => {
      if (drawn !== null && drawn.runs === runs && drawn.busy === busy) return;
      drawn = { runs, busy };
      redraw(element, () => element.replaceChildren(...contents(runs, busy, actions)));
    },
  };
}

function contents(runs: State["runs"], busy: boolean, { runStudy }: Actions): HTMLElement[] {
  const title = html("h2", { id: "example-title" }, words.start.example);
  const run = runs?.find(({ study, state }) => study === EXAMPLE && state !== "failed" && state !== "cancelled");
  if (run === undefined)
    return [
      title,
      html(
        "button",
        {
          type: "button",
          class: "start-card",
          id: "start-example",
          disabled: busy,
          "data-needs": "run",
          onclick: () => void runStudy(EXAMPLE),
        },
        html("strong", {}, words.start.runExample),
        html("span", {}, words.start.exampleNote),
      ),
      lacking("run"),
    ];
  const standing = run.verdict === null ? null : standingOf(run.verdict);
  return [
    title,
    html(
      "a",
      { class: "start-card", id: "start-example", href: writeAddress({ kind: "run", id: run.id, measurand: null }) },
      html("strong", { lang: titleLanguage(run.study) }, run.title),
      html(
        "span",
        { class: "verdict-small", "data-standing": standing },
        standing === null ? null : verdictMark(standing),
        html("span", {}, outcome(run)),
      ),
      html("span", {}, words.start.sheetNote),
    ),
  ];
}
