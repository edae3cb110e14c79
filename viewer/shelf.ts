import type { Actions } from "./actions.ts";
import { writeAddress } from "./address.ts";
import type { RunState, RunSummary, StudySummary } from "./api.ts";
import { html } from "./draw/node.ts";
import { whole } from "./draw/numbers.ts";
import type { State } from "./state.ts";

/** Headings of the groups this program ships; another group is called by its own name. */
const GROUPS: Readonly<Record<string, string>> = {
  harrowfen: "Harrowfen Calibration Room",
  published: "Worked examples of the standards",
  platinum: "Platinum thermometers",
};

const STATES: Readonly<Record<RunState, string>> = {
  waiting: "waiting",
  running: "running",
  finished: "finished",
  failed: "failed",
  cancelled: "cancelled",
};

/** Draws the studies and runs to choose from. */
export function drawShelf(shelf: Element, state: State, actions: Actions): void {
  const folded = shelf.querySelector("details")?.open;
  const something = state.chosen !== null || state.run !== null;
  const narrow = matchMedia("(max-width: 60rem)").matches;
  shelf.replaceChildren(
    html(
      "details",
      { class: "fold", id: "shelf-fold", open: narrow ? (folded ?? !something) : true },
      html("summary", { id: "shelf-summary" }, "Studies and earlier runs"),
      fileOpener(actions),
      state.studies === null ? html("p", { class: "note" }, "Reading the list of studies…") : studyGroups(state.studies, state),
      html("h2", {}, "Earlier runs"),
      runList(state.runs, state),
    ),
  );
}

function fileOpener({ open }: Actions): HTMLElement {
  const input = html("input", {
    type: "file",
    id: "study-file",
    accept: ".json,application/json",
    onchange: () => {
      const file = input.files?.[0];
      // Emptied, so that the same file can be chosen again once it is mended.
      if (file !== undefined) void open(file).then(() => (input.value = ""));
    },
  });
  return html("p", { class: "opener" }, html("label", { for: "study-file" }, "Open a study file"), input, html("span", { class: "note" }, "or drop it anywhere on the page"));
}

function studyGroups(studies: readonly StudySummary[], state: State): HTMLElement[] {
  const groups = [...new Set(studies.map(({ group }) => group))];
  return groups.map((group) =>
    html(
      "section",
      {},
      html("h2", {}, GROUPS[group] ?? `${group.charAt(0).toUpperCase()}${group.slice(1)}`),
      html(
        "ul",
        {},
        studies
          .filter((study) => study.group === group)
          .map(({ id, title }) =>
            html(
              "li",
              {},
              html(
                "a",
                { href: writeAddress({ kind: "study", id }), id: `study-${id}`, "aria-current": state.chosen?.id === id ? "page" : null },
                title,
              ),
            ),
          ),
      ),
    ),
  );
}

function runList(runs: readonly RunSummary[] | null, state: State): HTMLElement {
  if (runs === null || runs.length === 0) return html("p", { class: "note" }, runs === null ? "Reading the list of runs…" : "None yet.");
  return html(
    "ul",
    { class: "runs" },
    runs.map((run) =>
      html(
        "li",
        {},
        html(
          "a",
          { href: writeAddress({ kind: "run", id: run.id, measurand: null }), id: `run-${run.id}`, "aria-current": state.run?.id === run.id ? "page" : null },
          html("span", {}, run.title),
          html("span", { class: "note" }, `${outcome(run)}, ${whole(run.trials)} trials`),
          html("span", { class: "note" }, when(run.startedAt)),
        ),
      ),
    ),
  );
}

const outcome = ({ state, verdict }: RunSummary): string =>
  state === "finished" && verdict !== null ? (verdict.validated ? "= validated" : "≠ not validated") : STATES[state];

const two = (value: number): string => String(value).padStart(2, "0");

/** Day and time in the reader's zone. */
function when(text: string): string {
  const time = new Date(text);
  if (Number.isNaN(time.getTime())) return text;
  return `${time.getFullYear()}-${two(time.getMonth() + 1)}-${two(time.getDate())} ${two(time.getHours())}:${two(time.getMinutes())}`;
}
