import { words as pageWords } from "../language.ts";
import { fillText } from "../../present/fill.ts";
import type { Actions } from "../actions/index.ts";
import { whole } from "../numbers.ts";
import { writeAddress } from "../address.ts";
import { draftItems, undoBar } from "../drafts/list.ts";
import { html, redraw } from "../draw/node.ts";
import type { State } from "../state.ts";
import { createExample } from "./example.ts";
import { createTemplates } from "./templates.ts";

/** The first screen: three ways to begin, each with its templates, and a result to look at. */
export function createStart(actions: Actions): { readonly show: (state: State) => HTMLElement } {
  const templatesOf = createTemplates();
  const example = createExample(actions);
  const here = html("div", { class: "start-here" });
  const element = html(
    "div",
    { class: "start" },
    html(
      "header",
      { class: "empty" },
      html("h1", { id: "sheet-title", tabindex: -1 }, pageWords.start.question),
      html("p", {}, pageWords.start.about),
    ),
    html(
      "ul",
      { class: "starts", "aria-label": pageWords.start.ways },
      html(
        "li",
        {},
        fileStart(actions),
        html(
          "div",
          {},
          html(
            "p",
            { class: "templates" },
            html("a", { href: writeAddress({ kind: "import" }), id: "start-paste" }, pageWords.start.paste),
          ),
          templatesOf("budget"),
        ),
      ),
      html(
        "li",
        {},
        linkStart("start-new", writeAddress({ kind: "new" }), pageWords.start.fillIn, [pageWords.start.fillInNote]),
        html("div", {}, templatesOf("fill-in")),
      ),
      html(
        "li",
        {},
        linkStart("start-survey", writeAddress({ kind: "surveys" }), pageWords.start.survey, [
          pageWords.start.surveyNote,
        ]),
        html(
          "div",
          {},
          html(
            "p",
            { class: "templates" },
            html("a", { href: writeAddress({ kind: "evidence" }), id: "start-evidence" }, pageWords.start.evidence),
          ),
          templatesOf("survey"),
          templatesOf("readings"),
        ),
      ),
    ),
    example.element,
    here,
  );
  let drawn: Here | null = null;
  return {
    show: (state) => {
      example.show(state);
      if (
        drawn?.runs !== state.runs ||
        drawn.drafts !== state.drafts ||
        drawn.own !== state.own ||
        drawn.discarded !== state.discarded
      ) {
        drawn = state;
        redraw(here, () => here.replaceChildren(...whatIsHere(state, actions)));
      }
      return element;
    },
  };
}

type Here = Pick<State, "runs" | "drafts" | "own" | "discarded">;

/** Drafts to go on with at once; the rest is one click away. */
const DRAFTS = 3;

/** What was begun and run here before. */
function whatIsHere({ runs, drafts, own, discarded }: Here, actions: Actions): HTMLElement[] {
  const links = [
    own !== null && own.length + (drafts?.length ?? 0) > 0
      ? html("a", { href: writeAddress({ kind: "own", id: null }), id: "start-own" }, pageWords.start.yours)
      : null,
    runs !== null && runs.length > 0
      ? html(
          "a",
          { href: writeAddress({ kind: "runs" }), id: "start-runs" },
          runs.length === 1 ? pageWords.start.runHere : fillText(pageWords.start.runsHere, { n: whole(runs.length) }),
        )
      : null,
    html("a", { href: writeAddress({ kind: "laboratory" }), id: "start-laboratory" }, pageWords.frame.laboratory),
  ];
  return [
    ...undoBar(discarded, actions),
    ...(drafts === null || drafts.length === 0
      ? []
      : [
          html(
            "section",
            { "aria-labelledby": "go-on-title" },
            html("h2", { id: "go-on-title" }, pageWords.start.goOn),
            draftItems(drafts.slice(0, DRAFTS), actions),
          ),
        ]),
    html("p", { class: "buttons to-runs" }, links),
  ];
}

const words = (title: string, text: readonly string[]): HTMLElement[] => [
  html("strong", {}, title),
  ...text.map((line) => html("span", {}, line)),
];

const linkStart = (id: string, href: string, title: string, text: readonly string[]): HTMLElement =>
  html("a", { class: "start-card", id, href }, words(title, text));

/** The start that takes a file: the whole card is its label. */
function fileStart({ open }: Actions): HTMLElement {
  const input = html("input", {
    type: "file",
    id: "start-file",
    multiple: true,
    accept: ".csv,.xlsx,.json,text/csv,application/json",
    onchange: () => {
      const files = [...(input.files ?? [])];
      // Emptied, so that the same file can be chosen again once it is mended.
      if (files.length > 0) void open(files).then(() => (input.value = ""));
    },
  });
  return html(
    "span",
    { class: "start-file" },
    input,
    html(
      "label",
      { class: "start-card", for: "start-file" },
      words(pageWords.frame.import, [pageWords.start.importNote]),
    ),
  );
}
