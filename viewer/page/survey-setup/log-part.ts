import type { KeptFile, LogLook } from "../../api/evidence.ts";
import { moment, duration } from "../../present/survey-figures.ts";
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
    html("h2", { id: "setup-log-title" }, "The log"),
    html(
      "p",
      { class: "field wide" },
      html("label", { for: "setup-files" }, "Files of the log"),
      chosen,
      html("span", { class: "field-problem", id: "setup-files-problem" }),
      html(
        "span",
        { class: "note", id: "setup-files-help" },
        "CSV, text or XLSX, as the logger wrote it; one file with all thermometers, or one for each. You may also drop files anywhere on this page.",
      ),
    ),
    html(
      "details",
      { class: "take-away", id: "setup-paste-fold" },
      html("summary", { id: "setup-paste-summary" }, "Paste rows instead"),
      html(
        "p",
        { class: "field wide" },
        html("label", { for: "setup-paste" }, "Rows copied from a spreadsheet or a text file"),
        pasted,
        html("span", { class: "note", id: "setup-paste-help" }, "With the row of headings, if there is one."),
      ),
      html("p", { class: "buttons" }, button("setup-paste-take", "Take these rows", take)),
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
                html("h3", {}, "How it was read"),
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
        `Download (${Math.ceil(file.size / 1000)} kB)`,
      ),
      button(`setup-file-${i}-remove`, "Take out", () => actions.removeFile(file.name), {
        "aria-label": `Take out ${file.name}`,
      }),
    ),
    look === null
      ? html("p", { class: "note" }, "Reading…")
      : [
          ...look.notes.map((note) => html("p", { class: "note" }, `${note}.`)),
          preview(file, i, draft, fields, look, actions),
          questions(i, fields, look, actions),
        ],
  );
}

type Role = "" | "time" | "timeOfDay" | "thermometer";
const ROLES: readonly (readonly [Role, string])[] = [
  ["", "not used"],
  ["time", "time"],
  ["timeOfDay", "time of day"],
  ["thermometer", "thermometer"],
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
    { class: "wide-table", tabindex: 0, role: "region", "aria-label": `First rows of ${file.name}` },
    html(
      "table",
      { class: "plain log-preview" },
      html(
        "caption",
        {},
        proposal.headingRow === 0
          ? `${proposal.rows} rows of readings; no row of headings was found, so that columns go by their letters.`
          : `${proposal.rows} rows of readings below the headings in row ${proposal.headingRow}.${long ? " One reading a row, with the thermometer’s name beside it." : ""}`,
      ),
      html(
        "thead",
        {},
        long
          ? null
          : html(
              "tr",
              {},
              html("th", { scope: "row" }, "What it is"),
              proposal.columns.map((column, index) =>
                html(
                  "td",
                  {},
                  Object.assign(
                    select(roleOf(index), ROLES, (role) => give(index, role as Role)),
                    {
                      id: `setup-file-${i}-column-${index}`,
                      ariaLabel: `Column ${column.letter}, ${column.heading}`,
                    },
                  ),
                ),
              ),
            ),
        html(
          "tr",
          {},
          html("th", { scope: "col" }, "row"),
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
        "Order of day and month",
        select(
          fields["dates"] ?? "",
          [
            ["", "choose"],
            ["day-first", "day first"],
            ["month-first", "month first"],
          ],
          state("dates"),
        ),
        `The log has ${proposal.ambiguous}, and no day beyond the 12th that would tell.`,
      ),
    );
  if (proposal.clock === "elapsed" && proposal.timeUnit === null)
    asked.push(
      field(
        id("timeUnit"),
        "Unit of the elapsed time",
        select(
          fields["timeUnit"] ?? "",
          [
            ["", "s, as no heading says"],
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
        "Day the log begins",
        Object.assign(
          input(fields["day"] ?? "", () => undefined, { type: "date" }),
          {
            onchange: (event: Event) => state("day")((event.target as HTMLInputElement).value),
          },
        ),
        "Its times have no date. Without a day they are counted from midnight.",
      ),
    );
  const [back] = proposal.steps;
  if (back !== undefined)
    asked.push(
      field(
        id("clock"),
        "Times that are right",
        select(
          fields["clock"] ?? "",
          [
            ["", "choose"],
            ["before", "those before the clock was set"],
            ["after", "those after it was set"],
          ],
          state("clock"),
        ),
        `The clock went back by ${duration(back.from - back.to)} at row ${back.row} (${moment(back.from)} to ${moment(back.to)})${proposal.steps.length > 1 ? ` and ${proposal.steps.length - 1} more times` : ""}. The others are moved to join them.`,
      ),
    );
  if (proposal.sameTime > 0)
    asked.push(
      field(
        id("sameTime"),
        "Rows with the time of the row above",
        select(
          fields["sameTime"] ?? "",
          [
            ["", "choose"],
            ["spread", "spread them evenly up to the next time"],
          ],
          state("sameTime"),
        ),
        `${proposal.sameTime} rows: the clock shows less than the logger’s interval.`,
      ),
    );
  const strange = proposal.columns.flatMap(({ kind, firstOther, others }) =>
    kind === "figures" && firstOther !== null ? [{ firstOther, others }] : [],
  );
  if (strange.length > 0 || fields["noReading"] !== undefined)
    asked.push(
      field(
        id("noReading"),
        "Words that stand for no reading",
        Object.assign(
          input(fields["noReading"] ?? "", () => undefined),
          {
            onchange: (event: Event) => state("noReading")((event.target as HTMLInputElement).value),
          },
        ),
        strange.length === 0
          ? "Apart from each other by commas."
          : `Row ${strange[0]!.firstOther.row} has “${strange[0]!.firstOther.text.slice(0, 40)}” where readings are. Dashes, OVLD and the like are known.`,
      ),
    );
  return html("div", { class: "fields" }, ...asked.map((one) => one as HTMLElement));
}

export { UNITS };
