import { askFile, RequestError } from "../api.ts";
import { fillText } from "../../present/fill.ts";
import { choiceSwitch } from "../draw/switch.ts";
import { html } from "../draw/node.ts";
import { saveFile } from "../draw/save.ts";
import { messages, words } from "../language.ts";

const said = words.assessor;

type Paper = "A4" | "Letter";

/** What a record's report is made from. */
export interface Reported {
  /** The record's file, byte for byte. */
  readonly text: string;
  /** The run on the server, or `null` for a record from a file. */
  readonly run: string | null;
  /** Beginning of the names of the files. */
  readonly name: string;
  /** No report is made of a record that was altered. */
  readonly altered: boolean;
}

export interface Downloads {
  readonly element: HTMLElement;
  /** The language that the report is in unless the reader has chosen one. */
  readonly beginWith: (language: "en" | "de") => void;
}

/** Buttons that hand the reader the report and the dossier, with what became of it. */
export function createDownloads({ text, run, name, altered }: Reported): Downloads {
  let language: "en" | "de" = messages.language === "de" ? "de" : "en";
  let chosen = false;
  let paper: Paper = "A4";
  const status = html("p", { class: "note", role: "status", id: "report-status" });
  const frame = html("iframe", { class: "printed-report", title: said.reportPdf, hidden: true });
  const buttons: HTMLButtonElement[] = [];

  const make = async (work: () => Promise<string>): Promise<void> => {
    if (buttons.some(({ disabled }) => disabled)) return;
    for (const button of buttons) button.disabled = true;
    status.textContent = said.making;
    try {
      status.textContent = await work();
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      status.textContent = fillText(said.failedToMake, { message: error.fault.message });
    } finally {
      for (const button of buttons) button.disabled = false;
    }
  };
  const report = async (as: "html" | "pdf"): Promise<string> => {
    const file = `${name}-${language}.${as}`;
    const { blob } = await askFile(`api/records/report?language=${language}&as=${as}&paper=${paper}`, text);
    saveFile(file, blob);
    return fillText(said.saved, { file });
  };
  const pdf = async (): Promise<string> => {
    try {
      return await report("pdf");
    } catch (error) {
      if (!(error instanceof RequestError && error.fault.code === "no-such-file")) throw error;
      if (run === null) {
        await report("html");
        return fillText(said.noChromiumFile, { file: `${name}-${language}.html` });
      }
      frame.addEventListener("load", () => frame.contentWindow?.print(), { once: true });
      frame.src = `api/runs/${encodeURIComponent(run)}/report?language=${language}`;
      return said.noChromium;
    }
  };
  const dossier = async (): Promise<string> => {
    const { blob, missing } = await askFile("api/records/dossier", text);
    const file = `${name}-dossier.zip`;
    saveFile(file, blob);
    return missing === 0
      ? fillText(said.saved, { file })
      : fillText(said.savedMissing, { file, count: String(missing) });
  };
  const button = (id: string, label: string, work: () => Promise<string>): HTMLButtonElement => {
    const made = html("button", { type: "button", class: "quiet", id, onclick: () => void make(work) }, label);
    buttons.push(made);
    return made;
  };
  if (altered) return { element: html("div", { class: "downloads" }), beginWith: () => undefined };
  const languages = choiceSwitch(
    "report-language",
    said.language,
    [
      { value: "en", label: said.english },
      { value: "de", label: said.german },
    ],
    language,
    (value) => {
      chosen = true;
      language = value === "de" ? "de" : "en";
    },
  );
  const element = html(
    "div",
    { class: "downloads" },
    html(
      "div",
      { class: "controls" },
      languages,
      choiceSwitch(
        "report-paper",
        said.paper,
        [
          { value: "A4", label: "A4" },
          { value: "Letter", label: "Letter" },
        ],
        paper,
        (value) => (paper = value === "Letter" ? "Letter" : "A4"),
      ),
    ),
    html(
      "p",
      { class: "buttons" },
      button("report-html", said.reportHtml, () => report("html")),
      button("report-pdf", said.reportPdf, pdf),
      button("dossier", said.dossier, dossier),
    ),
    html("p", { class: "note" }, said.dossierNote),
    status,
    frame,
  );
  return {
    element,
    beginWith: (asked) => {
      if (chosen || asked === language) return;
      language = asked;
      for (const input of languages.querySelectorAll("input")) input.checked = input.value === asked;
    },
  };
}
