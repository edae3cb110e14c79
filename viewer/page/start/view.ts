import type { Actions } from "../actions/index.ts";
import { whole } from "../../present/numbers.ts";
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
      html("h1", { id: "sheet-title", tabindex: -1 }, "Does your uncertainty budget hold?"),
      html(
        "p",
        {},
        "This page sets the linear uncertainty budget of a measurement beside a Monte Carlo propagation of the same input quantities, and says whether the budget is validated and why. Begin with what you have.",
      ),
    ),
    html(
      "ul",
      { class: "starts", "aria-label": "Ways to begin" },
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
            html("a", { href: writeAddress({ kind: "import" }), id: "start-paste" }, "Or paste its cells"),
          ),
          templatesOf("budget"),
        ),
      ),
      html(
        "li",
        {},
        linkStart("start-new", writeAddress({ kind: "new" }), "Fill in a budget", [
          "Type each input quantity with its value, its uncertainty and how it is known. What you write is kept as a draft.",
        ]),
      ),
      html(
        "li",
        {},
        linkStart("start-survey", writeAddress({ kind: "surveys" }), "Evaluate a bath survey", [
          "The log of thermometers moved about in a bath becomes its stability and its temperature differences, as input quantities.",
        ]),
        html("div", {}, templatesOf("survey"), templatesOf("readings")),
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
      ? html("a", { href: writeAddress({ kind: "own", id: null }), id: "start-own" }, "Your studies and drafts")
      : null,
    runs !== null && runs.length > 0
      ? html(
          "a",
          { href: writeAddress({ kind: "runs" }), id: "start-runs" },
          runs.length === 1 ? "The run kept here" : `All ${whole(runs.length)} runs kept here`,
        )
      : null,
    html("a", { href: writeAddress({ kind: "laboratory" }), id: "start-laboratory" }, "Defaults of the laboratory"),
  ];
  return [
    ...undoBar(discarded, actions),
    ...(drafts === null || drafts.length === 0
      ? []
      : [
          html(
            "section",
            { "aria-labelledby": "go-on-title" },
            html("h2", { id: "go-on-title" }, "Go on with a draft"),
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
      words("Import a budget table", [
        "Choose the table that you keep, CSV or XLSX, or drop it anywhere on this page. You see how each row was read before anything is run.",
      ]),
    ),
  );
}
