import { fillText } from "../../present/fill.ts";
import { keepFile, RequestError } from "../api.ts";
import { html, type Child } from "../draw/node.ts";
import { words } from "../later-words.ts";
import type { Row } from "./row.ts";

/** Evidence of a row as the form keeps it: the engine's own fields. */
interface RowEvidence {
  readonly method: string;
  readonly files: readonly { readonly name: string; readonly sha256: string }[];
  readonly figures: readonly unknown[];
}

/** A study keeps this sentence, in every language of the page: a file that nothing was computed from. */
const METHOD = "a document filed with the figures; nothing was computed from it";
/** The engine's limit of files behind one statement, and what a server keeps of one file, bytes. */
const MOST_FILES = 20;
const MOST_BYTES = 20_000_000;

const evidenceOf = ({ rest }: Row): RowEvidence | null => (rest["evidence"] as RowEvidence | undefined) ?? null;

/** Whether the files of a row were attached here, and not evaluated elsewhere. */
const isAttached = (evidence: RowEvidence): boolean => evidence.method === METHOD;

/** The row with other files; without evidence if none is left. */
export function withFiles(row: Row, files: RowEvidence["files"]): Row {
  const { evidence: _before, ...rest } = row.rest;
  return { ...row, rest: files.length === 0 ? rest : { ...rest, evidence: { method: METHOD, files, figures: [] } } };
}

/** Files attached to a row; `null` for a row whose evidence was evaluated elsewhere. */
export function attachedTo(row: Row): RowEvidence["files"] | null {
  const evidence = evidenceOf(row);
  if (evidence === null) return [];
  return isAttached(evidence) ? evidence.files : null;
}

/**
 * The documents behind a row, such as its certificate: a file that is kept by its digest, which the record then carries.
 *
 * @param now the row as it is when a file has arrived
 */
export function attachedFiles(row: Row, line: number, now: () => Row, change: (row: Row) => void): Child {
  const files = attachedTo(row);
  if (files === null) return null;
  const id = `attach-${row.key}`;
  const said = html("span", { class: "note", role: "status", id: `${id}-said` });
  const problem = html("span", { class: "field-problem", id: `${id}-problem` });
  const take = async (chosen: readonly File[]): Promise<void> => {
    problem.textContent = "";
    for (const file of chosen) {
      const before = attachedTo(now()) ?? [];
      if (file.size > MOST_BYTES || file.size === 0 || before.length >= MOST_FILES) {
        problem.textContent = fillText(
          before.length >= MOST_FILES
            ? words.studyForm.attach.tooMany
            : file.size === 0
              ? words.studyForm.attach.empty
              : words.studyForm.attach.tooLarge,
          { file: file.name, most: String(before.length >= MOST_FILES ? MOST_FILES : MOST_BYTES / 1_000_000) },
        );
        return;
      }
      said.textContent = fillText(words.studyForm.attach.sending, { file: file.name });
      try {
        const { name, sha256 } = await keepFile(file);
        const others = (attachedTo(now()) ?? []).filter((one) => one.sha256 !== sha256);
        change(withFiles(now(), [...others, { name, sha256 }]));
      } catch (error) {
        if (!(error instanceof RequestError)) throw error;
        said.textContent = "";
        problem.textContent = fillText(words.studyForm.attach.failed, { file: file.name, why: error.fault.message });
        return;
      }
    }
  };
  const input = html("input", {
    type: "file",
    id,
    multiple: true,
    "data-needs": "run",
    accept: ".pdf,.xml,.png,.jpg,.jpeg,.csv,.xlsx,.txt",
    "aria-describedby": `${id}-help ${id}-problem`,
    onchange: () => {
      const chosen = [...(input.files ?? [])];
      input.value = "";
      if (chosen.length > 0) void take(chosen);
    },
  });
  return html(
    "div",
    { class: "attached" },
    html(
      "p",
      { class: "field wide" },
      html(
        "label",
        { for: id },
        words.studyForm.attach.label,
        html("span", { class: "unseen" }, fillText(words.studyTable.ofRow, { n: String(line) })),
      ),
      input,
      problem,
      html("span", { class: "note", id: `${id}-help` }, words.studyForm.attach.help),
      said,
    ),
    files.length === 0
      ? null
      : html(
          "ul",
          { class: "attached-files" },
          files.map(({ name, sha256 }, i) =>
            html(
              "li",
              {},
              html("a", { href: `api/evidence-files/${sha256}`, download: name, id: `${id}-file-${i}` }, name),
              html(
                "button",
                {
                  type: "button",
                  class: "quiet small",
                  id: `${id}-remove-${i}`,
                  "aria-label": fillText(words.studyForm.attach.removeOne, { file: name }),
                  onclick: () =>
                    change(
                      withFiles(
                        now(),
                        (attachedTo(now()) ?? []).filter((one) => one.sha256 !== sha256),
                      ),
                    ),
                },
                words.library.remove,
              ),
            ),
          ),
        ),
  );
}
