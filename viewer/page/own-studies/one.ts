import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import type { OwnStudy } from "../../api/own-studies.ts";
import type { RunHead } from "../../api/runs.ts";
import type { Actions } from "../actions/index.ts";
import { writeAddress } from "../address.ts";
import { html, redraw, type Child } from "../draw/node.ts";
import { when } from "../library/listing.ts";
import type { State } from "../state.ts";
import { trendPart } from "./trend.ts";
import { runMark } from "./run-mark.ts";
import { versionsOf } from "./search.ts";

/** One study of the laboratory's own: its name and tags, and its runs under the version that each was made from. */
export function createOwnStudy(actions: Actions): { readonly show: (state: State, id: string) => HTMLElement } {
  const kind = html("p", { class: "kind" });
  const title = html("h1", { id: "sheet-title", tabindex: -1 });
  const buttons = html("p", { class: "buttons" });
  const naming = html("div", {});
  const versions = html("div", {});
  const element = html(
    "div",
    { class: "own-study" },
    html("header", { class: "sheet-head" }, kind, title),
    buttons,
    html("section", { class: "panel" }, html("h2", {}, words.ownStudies.nameAndTags), naming),
    html("section", { class: "panel" }, html("h2", {}, words.ownStudies.versionsAndRuns), versions),
  );
  /** Whether the form is drawn anew because what was typed into it was kept. */
  let kept = false;
  let drawn: { readonly study: OwnStudy | undefined; readonly runs: State["runs"]; readonly id: string } | null = null;

  return {
    show: ({ own, runs }, id) => {
      const study = own?.find((one) => one.id === id);
      if (drawn !== null && drawn.study === study && drawn.runs === runs && drawn.id === id) return element;
      // A list that was read anew leaves what is typed alone.
      const named = drawn?.id === id && drawn.study?.revision === study?.revision && naming.childElementCount > 0;
      drawn = { study, runs, id };
      kind.textContent = words.ownStudies.kind;
      title.textContent = study?.name ?? (own === null ? words.ownStudies.reading : words.ownStudies.noRun);
      if (study === undefined) {
        for (const part of [buttons, naming, versions]) part.replaceChildren();
        return element;
      }
      const grouped = versionsOf(study, runs ?? []);
      redraw(buttons, () => buttons.replaceChildren(...editButtons(grouped[0]?.runs[0], actions)));
      if (!named) {
        redraw(naming, () => naming.replaceChildren(namingForm(study, actions, () => (kept = true))));
        naming.querySelector("#own-named")!.textContent = kept ? words.ownStudies.kept : "";
        kept = false;
      }
      redraw(versions, () => {
        const trend = trendPart(
          grouped.flatMap(({ runs: made }) => made.filter(({ state }) => state === "finished").slice(0, 1)),
        );
        versions.replaceChildren(
          ...(trend === null ? [] : [trend]),
          ...grouped.map((one, i) => versionPart(one, grouped[i + 1])),
        );
      });
      return element;
    },
  };
}

const editButtons = (latest: RunHead | undefined, { editStudy }: Actions): HTMLElement[] =>
  latest === undefined
    ? []
    : [
        html(
          "button",
          { type: "button", class: "main", id: "edit-own", onclick: () => void editStudy(latest) },
          words.sheet.edit,
        ),
        html(
          "button",
          { type: "button", class: "quiet", id: "copy-own", onclick: () => void editStudy(latest, true) },
          words.ownStudies.copy,
        ),
      ];

function namingForm(study: OwnStudy, { nameStudy }: Actions, told: () => void): HTMLElement {
  const name = html("input", { type: "text", id: "own-name", maxlength: 200, value: study.name, required: true });
  const tags = html("input", {
    type: "text",
    id: "own-tags",
    maxlength: 400,
    value: study.tags.join(", "),
    "aria-describedby": "own-tags-help",
  });
  const said = html("p", { class: "note", role: "status", id: "own-named" });
  const problem = html("p", { class: "field-problem", id: "own-name-problem" });
  const keep = async (): Promise<void> => {
    const wanted = name.value.trim();
    problem.textContent = wanted === "" ? words.ownStudies.wrongName : "";
    name.removeAttribute("aria-invalid");
    if (wanted === "") {
      name.setAttribute("aria-invalid", "true");
      name.setAttribute("aria-describedby", "own-name-problem");
      name.focus();
      return;
    }
    const parts = [...new Set(tags.value.split(/[,;]/).map((tag) => tag.trim()))].filter((tag) => tag !== "");
    if (await nameStudy(study, wanted, parts)) told();
  };
  return html(
    "form",
    {
      class: "naming",
      novalidate: true,
      onsubmit: (event: SubmitEvent) => {
        event.preventDefault();
        void keep();
      },
    },
    html("label", { for: "own-name" }, words.ownStudies.studyName),
    problem,
    name,
    html("label", { for: "own-tags" }, words.ownStudies.tags),
    html("p", { class: "note", id: "own-tags-help" }, words.ownStudies.tagsHelp),
    tags,
    html(
      "p",
      { class: "buttons" },
      html("button", { type: "submit", class: "quiet", id: "keep-name" }, words.ownStudies.keep),
      said,
    ),
  );
}

type Version = ReturnType<typeof versionsOf>[number];

function versionPart({ version, runs }: Version, before: Version | undefined): HTMLElement {
  const [newest] = runs;
  const earlier = before?.runs.find(({ state }) => state === "finished");
  const compare: Child =
    newest?.state === "finished" && earlier !== undefined
      ? html(
          "a",
          {
            href: writeAddress({ kind: "comparison", id: earlier.id, with: newest.id }),
            id: `compare-version-${version}`,
          },
          fillText(words.ownStudies.compareWith, { n: String(before!.version) }),
        )
      : null;
  return html(
    "section",
    { class: "version" },
    html("h3", {}, fillText(words.ownStudies.version, { n: String(version) })),
    html(
      "ul",
      { class: "version-runs" },
      runs.map((run) =>
        html(
          "li",
          {},
          html(
            "a",
            { href: writeAddress({ kind: "run", id: run.id, measurand: null }), id: `own-run-${run.id}` },
            run.title,
          ),
          runMark(run),
          html("time", { class: "note", datetime: run.startedAt }, when(run.startedAt)),
          run.note === null ? null : html("span", { class: "remark" }, run.note),
        ),
      ),
    ),
    compare,
  );
}
