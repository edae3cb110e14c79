import type { ReportedRecord, RunRecord } from "../../../engine/index.ts";
import { createDownloads, type Downloads } from "../assessor/downloads.ts";
import { createVerification } from "../assessor/verification.ts";
import { html, type Child } from "../draw/node.ts";
import { fillText } from "../../present/fill.ts";
import { momentText } from "../../present/moment.ts";
import { messages, words } from "../language.ts";
import type { Panel } from "./panel.ts";

const said = words.assessor;

/** Controls outlive redraws: a verification goes on while the reader chooses another unit. */
const controls = new WeakMap<RunRecord, { readonly element: HTMLElement; readonly downloads: Downloads }>();

/** What an assessor needs: the report, the dossier, a verification, and the digests that tie it all together. */
export const assessor: Panel = {
  id: "assessor",
  title: said.title,
  concludes: true,
  appliesTo: () => true,
  render(element, record, _measurand, { provisional, file, filed, reportLanguage }) {
    if (provisional) {
      element.replaceChildren(html("p", { class: "note" }, said.provisional));
      return;
    }
    let made = controls.get(record);
    if (made === undefined) {
      // What is verified and passed on is the record as it was filed, in whatever language the page shows it.
      const text = file.text ?? `${JSON.stringify(filed, null, 2)}\n`;
      const downloads = createDownloads({ text, run: file.run, name: nameOf(record), altered: file.altered });
      const controlsElement = html(
        "div",
        { class: "assessor-controls" },
        downloads.element,
        createVerification(text, record),
      );
      made = { element: controlsElement, downloads };
      controls.set(record, made);
    }
    made.downloads.beginWith(reportLanguage);
    // What stands there already stays, and keeps its focus.
    if (element.firstElementChild === made.element) return;
    element.replaceChildren(made.element, html("h3", {}, said.digests), digests(record));
  },
};

/** A name of files: the beginning of the title in letters that every system takes. */
const nameOf = ({ study }: RunRecord): string =>
  study.title
    .normalize("NFKD")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-|-$/g, "")
    .slice(0, 60) || "record";

function digests(record: ReportedRecord): HTMLElement {
  const { seal, provenance, engine, environment } = record;
  const digest = (text: string): Child =>
    text === "unbuilt" ? said.unbuilt : html("code", { class: "digest" }, text.replace(/(.{8})(?=.)/g, "$1\u200b"));
  const rows: (readonly [string, Child])[] = [
    ...(seal === undefined
      ? [[said.ofRecord, said.noSeal] as const]
      : ([
          [said.ofRecord, digest(seal.record)],
          [said.ofResults, digest(seal.results)],
          [said.ofStudy, digest(seal.study)],
        ] as const)),
    ...(provenance === undefined
      ? []
      : ([
          [said.ofModel, digest(provenance.modelDigest)],
          [said.ofEngine, digest(provenance.engineDigest)],
        ] as const)),
    ...(environment === undefined
      ? []
      : [[messages.provenance.started, momentText(environment.startedAt, messages.language, true)] as const]),
    [
      said.version,
      [
        `${engine.name} ${engine.version}, `,
        provenance?.commit ? fillText(said.commit, { commit: provenance.commit }) : said.noCommit,
      ],
    ],
  ];
  return html(
    "dl",
    { class: "provenance digests", id: "digests" },
    rows.map(([term, value]) => html("div", {}, html("dt", {}, term), html("dd", {}, value))),
  );
}
