import type { EvidenceKind, ListedEvidence } from "../../api/evidence.ts";
import { fillText } from "../../present/fill.ts";
import { writeAddress, type Address } from "../address.ts";
import { html } from "../draw/node.ts";
import { words } from "../later-words.ts";

const KINDS: readonly EvidenceKind[] = ["readings", "immersion", "certificate", "survey"];

const addressOf = (kind: EvidenceKind, id: string | null): Address =>
  kind === "survey" ? { kind: "survey-setup", id } : { kind: "evidence-form", form: kind, id };

/** What budgets rest on: a beginning for each kind, and what is kept. */
export function evidenceList(kept: readonly ListedEvidence[]): HTMLElement {
  const { list } = words.forms;
  return html(
    "div",
    { class: "survey-list" },
    html(
      "header",
      { class: "sheet-head" },
      html("p", { class: "kind" }, list.heading),
      html("h1", { id: "sheet-title", tabindex: -1 }, words.frame.evidence.all),
      html("p", { class: "notes" }, list.intro),
    ),
    html(
      "section",
      { class: "panel", "aria-labelledby": "evidence-begin-title" },
      html("h2", { id: "evidence-begin-title" }, list.begin),
      html(
        "ul",
        { class: "surveys" },
        KINDS.map((kind) =>
          html(
            "li",
            {},
            html(
              "a",
              { href: writeAddress(addressOf(kind, null)), id: `begin-${kind}`, class: "strong" },
              words.frame.evidence[kind],
            ),
            html("span", { class: "note" }, list[`${kind}Help`]),
          ),
        ),
        html(
          "li",
          {},
          html(
            "a",
            { href: writeAddress({ kind: "watch", id: null }), id: "begin-watch", class: "strong" },
            words.watch.link,
          ),
          html("span", { class: "note" }, words.watch.linkHelp),
        ),
      ),
    ),
    html(
      "section",
      { class: "panel", "aria-labelledby": "evidence-kept-title" },
      html("h2", { id: "evidence-kept-title" }, list.kept),
      kept.length === 0 ? html("p", { id: "no-evidence" }, list.none) : null,
      ...KINDS.flatMap((kind) => {
        const own = kept.filter((one) => one.kind === kind);
        return own.length === 0
          ? []
          : [
              html("h3", {}, words.frame.evidence[kind]),
              html("ul", { class: "surveys", id: `kept-${kind}` }, own.map(lineOf)),
            ];
      }),
    ),
  );
}

function lineOf({ id, kind, title, version, changedAt }: ListedEvidence): HTMLElement {
  const when = `${changedAt.slice(0, 16).replace("T", " ")} UTC`;
  const { draft, version: numbered } = words.forms.list;
  return html(
    "li",
    {},
    html("a", { href: writeAddress(addressOf(kind, id)), id: `evidence-${id}` }, title),
    html(
      "span",
      { class: "note" },
      version === 0 ? fillText(draft, { when }) : fillText(numbered, { when, number: String(version) }),
    ),
  );
}
