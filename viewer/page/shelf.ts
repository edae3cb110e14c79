import { titleLanguage } from "./draw/from-english.ts";
import { fillText } from "../present/fill.ts";
import { counted } from "./counted.ts";
import { standingOf, standingText } from "../present/verdict.ts";
import { messages } from "./language.ts";
import { words } from "./language.ts";
import type { Actions } from "./actions/index.ts";
import { writeAddress } from "./address.ts";
import type { RunHead } from "../api/runs.ts";
import type { ListedStudy } from "../api/studies.ts";
import { html, redraw } from "./draw/node.ts";
import { whole } from "./numbers.ts";
import { matches, outcome, when } from "./library/listing.ts";
import { shownRun, shownStudy } from "./shown.ts";
import type { State } from "./state.ts";

/** Headings of the groups this program ships; another group is called by its own name. */
const GROUPS: ReadonlyMap<string, string> = new Map([
  ["harrowfen", "Harrowfen Calibration Room"],
  ["published", words.shelf.groups.published],
  ["platinum", words.shelf.groups.platinum],
  ["verdicts", words.shelf.groups.verdicts],
]);

/** Runs the shelf has at hand; the library has them all. */
const LATEST = 4;

/** What there is to start from, and the latest runs. The field that finds a study keeps what is typed into it. */
export function createShelf(shelf: Element, actions: Actions): { readonly draw: (state: State) => void } {
  const lists = html("div", {});
  const find = html("input", {
    type: "search",
    id: "find-study",
    autocomplete: "off",
    spellcheck: "false",
    oninput: () => draw(drawn!),
  });
  const latest = html("div", {});
  const surveys = html("a", { href: writeAddress({ kind: "surveys" }), id: "surveys-link" }, messages.surveyPanels.all);
  const evidence = html(
    "a",
    { href: writeAddress({ kind: "evidence" }), id: "evidence-link" },
    words.frame.evidence.all,
  );
  const calibration = html(
    "a",
    { href: writeAddress({ kind: "calibration", id: null }), id: "calibration-link" },
    words.frame.calibration,
  );
  const outlook = html("a", { href: writeAddress({ kind: "outlook" }), id: "outlook-link" }, words.frame.outlook);
  const narrow = matchMedia("(max-width: 60rem)");
  const fold = html(
    "details",
    { class: "fold", id: "shelf-fold" },
    html("summary", { id: "shelf-summary" }, words.frame.shelf),
    fileOpener(actions),
    html(
      "p",
      { class: "to-new" },
      html("a", { href: writeAddress({ kind: "new" }), id: "write-study" }, words.shelf.write),
    ),
    html(
      "p",
      { class: "to-new" },
      html("a", { href: writeAddress({ kind: "own", id: null }), id: "own-link" }, words.shelf.own),
    ),
    html("p", { class: "to-new" }, evidence),
    html("p", { class: "to-new" }, surveys),
    html("p", { class: "to-new" }, calibration),
    html("p", { class: "to-new" }, outlook),
    latest,
    html("p", { class: "find" }, html("label", { for: "find-study" }, words.shelf.find), find),
    lists,
  );
  shelf.append(fold);
  let drawn: State | null = null;

  const draw = (state: State): void => {
    // On a narrow page the list is folded: the first screen has the ways to begin.
    if (drawn === null) fold.open = !narrow.matches;
    drawn = state;
    surveys.toggleAttribute("aria-current", false);
    calibration.toggleAttribute("aria-current", false);
    if (state.shown.kind === "calibration") calibration.setAttribute("aria-current", "page");
    outlook.toggleAttribute("aria-current", false);
    if (state.shown.kind === "outlook") outlook.setAttribute("aria-current", "page");
    evidence.toggleAttribute("aria-current", false);
    if (state.shown.kind === "evidence" || state.shown.kind === "evidence-form")
      evidence.setAttribute("aria-current", "page");
    if (state.shown.kind === "surveys" || state.shown.kind === "survey") surveys.setAttribute("aria-current", "page");
    redraw(latest, () => latest.replaceChildren(...latestRuns(state)));
    redraw(lists, () =>
      lists.replaceChildren(
        ...(state.studies === null
          ? [html("p", { class: "note" }, words.shelf.reading)]
          : studyGroups(state.studies, find.value, state)),
      ),
    );
  };
  return { draw };
}

function fileOpener({ open }: Actions): HTMLElement {
  const input = html("input", {
    type: "file",
    id: "study-file",
    multiple: true,
    accept: ".json,.csv,.xlsx,application/json,text/csv",
    "aria-describedby": "study-file-note",
    onchange: () => {
      const files = [...(input.files ?? [])];
      // Emptied, so that the same file can be chosen again once it is mended.
      if (files.length > 0) void open(files).then(() => (input.value = ""));
    },
  });
  return html(
    "p",
    { class: "opener" },
    html("label", { for: "study-file" }, words.shelf.open),
    input,
    html("span", { class: "note", id: "study-file-note" }, words.shelf.openNote),
  );
}

function studyGroups(studies: readonly ListedStudy[], search: string, state: State): HTMLElement[] {
  const found = studies.filter(({ title, model, id, laboratory, notes }) =>
    matches(search, [title, model, id, laboratory, notes]),
  );
  if (found.length === 0)
    return [
      html(
        "p",
        { class: "note", role: "status" },
        studies.length === 0 ? words.shelf.noStudies : words.shelf.noneFound,
      ),
    ];
  const groups = [...new Set(found.map(({ group }) => group))];
  return groups.map((group) =>
    html(
      "section",
      {},
      html("h2", {}, GROUPS.get(group) ?? `${group.charAt(0).toUpperCase()}${group.slice(1)}`),
      html(
        "ul",
        {},
        found
          .filter((study) => study.group === group)
          .map(({ id, title }) =>
            html(
              "li",
              {},
              html(
                "a",
                {
                  href: writeAddress({ kind: "study", id }),
                  id: `study-${id}`,
                  lang: titleLanguage(id),
                  "aria-current": shownStudy(state.shown)?.id === id ? "page" : null,
                },
                title,
              ),
            ),
          ),
      ),
    ),
  );
}

function latestRuns({ runs, shown }: State): HTMLElement[] {
  const head = html("h2", {}, words.shelf.latest);
  if (runs === null || runs.length === 0)
    return [head, html("p", { class: "note" }, runs === null ? words.shelf.readingRuns : words.shelf.none)];
  return [
    head,
    html(
      "ul",
      { class: "runs" },
      runs.slice(0, LATEST).map((one) =>
        html(
          "li",
          {},
          html(
            "a",
            {
              href: writeAddress({ kind: "run", id: one.id, measurand: null }),
              id: `run-${one.id}`,
              "aria-current": shownRun(shown)?.id === one.id ? "page" : null,
            },
            html("span", { lang: titleLanguage(one.study) }, one.title),
            html(
              "span",
              { class: "note" },
              one.trials === 0 ? marked(one) : counted(words.shelf.trials, one.trials, { outcome: marked(one) }),
            ),
            html("span", { class: "note" }, when(one.startedAt)),
          ),
        ),
      ),
    ),
    html(
      "p",
      { class: "all-runs" },
      html(
        "a",
        { href: writeAddress({ kind: "runs" }), id: "all-runs" },
        runs.length === 1 ? words.shelf.search : fillText(words.shelf.all, { n: whole(runs.length) }),
      ),
    ),
  ];
}

/** The outcome with the sign that stands for it. */
function marked(run: RunHead): string {
  return run.state === "finished" && run.verdict !== null
    ? standingText(standingOf(run.verdict), messages)
    : outcome(run);
}
