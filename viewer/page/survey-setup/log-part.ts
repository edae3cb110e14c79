import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import type { KeptFile, LogLook } from "../../api/evidence.ts";
import { moment, duration } from "../survey/figures.ts";
import { html, type Child } from "../draw/node.ts";
import type { LogFields, LoggedDraft } from "./draft.ts";
import { newOne, type Thermometer } from "./thermometer-document.ts";
import { button, field, input, select, redrawTyping } from "../evidence/field.ts";

const UNITS = ["°C", "K", "mK", "°F", "Ω"] as const;

/** What the part of the log asks of the view. */
export interface LogPartActions {
  /** Sends files to the server and takes them into the log. */
  readonly add: (files: readonly File[]) => Promise<void>;
  readonly removeFile: (name: string) => void;
  /** The mapping changed: the log is read anew. */
  readonly changed: () => void;
}

/** The files of the log: what each column is, and what only a person can tell. */
export function createLogPart(actions: LogPartActions): {
  readonly element: HTMLElement;
  readonly draw: (
    draft: LoggedDraft,
    files: readonly KeptFile[],
    looks: ReadonlyMap<string, LogLook>,
    notes: readonly string[],
  ) => void;
} {
  const body = html("div", {});
  const chosen = html("input", {
    type: "file",
    multiple: true,
    id: "setup-files",
    accept: ".csv,.txt,.tsv,.dat,.log,.xlsx",
    "aria-describedby": "setup-files-help setup-files-problem",
    onchange: () => {
      const files = [...(chosen.files ?? [])];
      chosen.value = "";
      if (files.length > 0) void actions.add(files);
    },
  });
  const pasted = html("textarea", {
    rows: 3,
    id: "setup-paste",
    spellcheck: "false",
    "aria-describedby": "setup-paste-help",
  });
  const take = (): void => {
    if (pasted.value.trim() === "") return;
    const file = new File([pasted.value.endsWith("\n") ? pasted.value : `${pasted.value}\n`], "pasted.csv", {
      type: "text/csv",
    });
    pasted.value = "";
    void actions.add([file]);
  };
  const element = html(
    "section",
    { class: "panel", id: "setup-log", "aria-labelledby": "setup-log-title" },
    html("h2", { id: "setup-log-title" }, words.surveySetup.log),
    html(
      "p",
      { class: "field wide" },
      html("label", { for: "setup-files" }, words.surveySetup.files),
      chosen,
      html("span", { class: "field-problem", id: "setup-files-problem" }),
      html("span", { class: "note", id: "setup-files-help" }, words.surveySetup.filesHelp),
    ),
    html(
      "details",
      { class: "take-away", id: "setup-paste-fold" },
      html("summary", { id: "setup-paste-summary" }, words.surveySetup.pasteInstead),
      html(
        "p",
        { class: "field wide" },
        html("label", { for: "setup-paste" }, words.surveySetup.pasted),
        pasted,
        html("span", { class: "note", id: "setup-paste-help" }, words.surveySetup.pastedHelp),
      ),
      html("p", { class: "buttons" }, button("setup-paste-take", words.surveySetup.takeRows, take)),
    ),
    body,
  );
  return {
    element,
    draw: (draft, files, looks, notes) =>
      redrawTyping(body, () =>
        body.replaceChildren(
          ...files.map((file, i) => fileOf(file, i, draft, looks.get(file.name) ?? null, actions)),
          ...(notes.length === 0
            ? []
            : [
                html("h3", {}, words.surveySetup.howRead),
                html(
                  "ul",
                  { class: "sentences", id: "setup-log-notes" },
                  notes.map((note) => html("li", {}, `${note}.`)),
                ),
              ]),
        ),
      ),
  };
}

function fileOf(
  file: KeptFile,
  i: number,
  draft: LoggedDraft,
  look: LogLook | null,
  actions: LogPartActions,
): HTMLElement {
  const fields = draft.logs.find((log) => log.file === file.name)?.fields ?? {};
  return html(
    "section",
    { class: "log-file", "aria-labelledby": `setup-file-${i}-title` },
    html(
      "div",
      { class: "file-head" },
      html("h3", { id: `setup-file-${i}-title` }, file.name),
      html(
        "a",
        { href: `api/evidence-files/${file.sha256}`, download: file.name, class: "note" },
        fillText(words.surveySetup.download, { n: String(Math.ceil(file.size / 1000)) }),
      ),
      button(`setup-file-${i}-remove`, words.surveySetup.takeOut, () => actions.removeFile(file.name), {
        "aria-label": fillText(words.surveySetup.takeOutOne, { file: file.name }),
      }),
    ),
    look === null
      ? html("p", { class: "note" }, words.sheet.reading)
      : [
          ...look.notes.map((note) => html("p", { class: "note" }, `${note}.`)),
          preview(file, i, draft, fields, look, actions),
          questions(i, fields, look, actions),
        ],
  );
}

type Role = "" | "time" | "timeOfDay" | "thermometer";
const ROLES: readonly (readonly [Role, string])[] = [
  ["", words.surveySetup.roles.none],
  ["time", words.surveySetup.roles.time],
  ["timeOfDay", words.surveySetup.roles.timeOfDay],
  ["thermometer", words.surveySetup.roles.thermometer],
];

/** How a column is named in the description: by its heading if no other has it, else by its letter. */
function referenceOf({ proposal: { columns, headingRow } }: LogLook, index: number): string {
  const { heading, letter } = columns[index]!;
  const plain = (text: string): string => /^(.*?)\s*(?:\/[^/()[\]]+|\[[^\]]+\]|\([^)]+\))\s*$/.exec(text)?.[1] || text;
  const name = plain(heading);
  return headingRow > 0 && columns.filter((column) => plain(column.heading) === name).length === 1 ? name : letter;
}

function preview(
  file: KeptFile,
  i: number,
  draft: LoggedDraft,
  fields: LogFields,
  look: LogLook,
  actions: LogPartActions,
): HTMLElement {
  const { proposal, rows } = look;
  const reference = (index: number): string => referenceOf(look, index);
  const thermometerAt = (index: number): Thermometer | undefined =>
    draft.thermometers.find((one) => one.file === file.name && (one.column || one.name) === reference(index));
  const roleOf = (index: number): Role => {
    const own = reference(index);
    if (fields["timeOfDay"] === own) return "timeOfDay";
    if ((fields["time"] ?? proposal.time) === own) return "time";
    return thermometerAt(index) === undefined ? "" : "thermometer";
  };
  const give = (index: number, role: Role): void => {
    const own = reference(index);
    const before = roleOf(index);
    if (before === "thermometer") {
      const at = draft.thermometers.indexOf(thermometerAt(index)!);
      const [gone] = draft.thermometers.splice(at, 1);
      for (const step of draft.steps) delete step.at[gone!.name];
    }
    if (before === "timeOfDay") delete fields["timeOfDay"];
    if (role === "time" || role === "timeOfDay") fields[role] = own;
    if (role === "thermometer")
      draft.thermometers.push(newThermometer(draft, file.name, own, proposal.columns[index]!.unit));
    actions.changed();
  };
  const long = proposal.thermometers.some(({ column }) => column === null);
  return html(
    "div",
    {
      class: "wide-table",
      tabindex: 0,
      role: "region",
      "aria-label": fillText(words.surveySetup.firstRows, { file: file.name }),
    },
    html(
      "table",
      { class: "plain log-preview" },
      html(
        "caption",
        {},
        proposal.headingRow === 0
          ? fillText(words.surveySetup.rowsByLetter, { n: String(proposal.rows) })
          : fillText(long ? words.surveySetup.rowsBelowLong : words.surveySetup.rowsBelow, {
              n: String(proposal.rows),
              row: String(proposal.headingRow),
            }),
      ),
      html(
        "thead",
        {},
        long
          ? null
          : html(
              "tr",
              {},
              html("th", { scope: "row" }, words.surveySetup.whatItIs),
              proposal.columns.map((column, index) =>
                html(
                  "td",
                  {},
                  Object.assign(
                    select(roleOf(index), ROLES, (role) => give(index, role as Role)),
                    {
                      id: `setup-file-${i}-column-${index}`,
                      ariaLabel: fillText(words.surveySetup.column, { letter: column.letter, heading: column.heading }),
                    },
                  ),
                ),
              ),
            ),
        html(
          "tr",
          {},
          html("th", { scope: "col" }, words.surveySetup.row),
          proposal.columns.map(({ letter }) => html("th", { scope: "col", class: "words" }, letter)),
        ),
      ),
      html(
        "tbody",
        {},
        rows.map(({ row, cells }) =>
          html(
            "tr",
            { class: row === proposal.headingRow ? "asked" : null },
            html("th", { scope: "row" }, String(row)),
            proposal.columns.map((_, index) => html("td", { class: "words" }, cells[index] ?? "")),
          ),
        ),
      ),
    ),
  );
}

/** A thermometer under a name that no other has. */
export function newThermometer(draft: LoggedDraft, file: string, column: string, unit: string | null): Thermometer {
  const taken = new Set(draft.thermometers.map(({ name }) => name));
  const stem = file.replace(/\.[^.]+$/, "");
  const generic = /^([A-Z]{1,2}|temp.*|value|reading|wert|messwert|t|channel.*|ch ?\d+|°C)$/i.test(column);
  let name = generic && draft.logs.length > 1 ? stem : column;
  for (let k = 2; taken.has(name); k += 1) name = `${column} ${k}`;
  return newOne(name, file, name === column ? "" : column, unit ?? "");
}

/** What only a person can tell, asked where the log gives reason to ask. */
function questions(i: number, fields: LogFields, { proposal }: LogLook, { changed }: LogPartActions): HTMLElement {
  const state = (name: string) => (value: string) => {
    if (value === "") delete fields[name];
    else fields[name] = value;
    changed();
  };
  const id = (name: string): string => `setup-file-${i}-${name}`;
  const asked: Child[] = [];
  if (proposal.ambiguous !== null)
    asked.push(
      field(
        id("dates"),
        words.surveySetup.dates,
        select(
          fields["dates"] ?? "",
          [
            ["", words.surveySetup.chooseOne],
            ["day-first", words.surveySetup.dayFirst],
            ["month-first", words.surveySetup.monthFirst],
          ],
          state("dates"),
        ),
        fillText(words.surveySetup.ambiguous, { found: proposal.ambiguous }),
      ),
    );
  if (proposal.clock === "elapsed" && proposal.timeUnit === null)
    asked.push(
      field(
        id("timeUnit"),
        words.surveySetup.timeUnit,
        select(
          fields["timeUnit"] ?? "",
          [
            ["", words.surveySetup.seconds],
            ["s", "s"],
            ["min", "min"],
            ["h", "h"],
            ["ms", "ms"],
          ],
          state("timeUnit"),
        ),
      ),
    );
  if (proposal.clock === "of-day")
    asked.push(
      field(
        id("day"),
        words.surveySetup.day,
        Object.assign(
          input(fields["day"] ?? "", () => undefined, { type: "date" }),
          {
            onchange: (event: Event) => state("day")((event.target as HTMLInputElement).value),
          },
        ),
        words.surveySetup.dayHelp,
      ),
    );
  const [back] = proposal.steps;
  if (back !== undefined)
    asked.push(
      field(
        id("clock"),
        words.surveySetup.clock,
        select(
          fields["clock"] ?? "",
          [
            ["", words.surveySetup.chooseOne],
            ["before", words.surveySetup.clockBefore],
            ["after", words.surveySetup.clockAfter],
          ],
          state("clock"),
        ),
        fillText(proposal.steps.length > 1 ? words.surveySetup.clockBackMore : words.surveySetup.clockBack, {
          by: duration(back.from - back.to),
          row: String(back.row),
          from: moment(back.from),
          to: moment(back.to),
          more: String(proposal.steps.length - 1),
        }),
      ),
    );
  if (proposal.sameTime > 0)
    asked.push(
      field(
        id("sameTime"),
        words.surveySetup.sameTime,
        select(
          fields["sameTime"] ?? "",
          [
            ["", words.surveySetup.chooseOne],
            ["spread", words.surveySetup.spread],
          ],
          state("sameTime"),
        ),
        fillText(words.surveySetup.sameTimeHelp, { n: String(proposal.sameTime) }),
      ),
    );
  const strange = proposal.columns.flatMap(({ kind, firstOther, others }) =>
    kind === "figures" && firstOther !== null ? [{ firstOther, others }] : [],
  );
  if (strange.length > 0 || fields["noReading"] !== undefined)
    asked.push(
      field(
        id("noReading"),
        words.surveySetup.noReading,
        Object.assign(
          input(fields["noReading"] ?? "", () => undefined),
          {
            onchange: (event: Event) => state("noReading")((event.target as HTMLInputElement).value),
          },
        ),
        strange.length === 0
          ? words.surveySetup.byCommas
          : fillText(words.surveySetup.strange, {
              row: String(strange[0]!.firstOther.row),
              text: strange[0]!.firstOther.text.slice(0, 40),
            }),
      ),
    );
  return html("div", { class: "fields" }, ...asked.map((one) => one as HTMLElement));
}

export { UNITS };
