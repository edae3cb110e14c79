import { words } from "../language.ts";
import { fillText } from "../../present/fill.ts";
import { writeAddress } from "../address.ts";
import { createEvidence, openEvidenceFile, readRecord, sendSurvey } from "../api.ts";
import type { Run } from "../run.ts";
import { isEvidence, openFiles } from "../open-file.ts";
import type { Shown } from "../shown.ts";
import type { ActionContext } from "./context.ts";

/** What a reader can do with files. */
export interface FileActions {
  /** Opens what was chosen or dropped: one file, or a survey's description with its log. */
  readonly open: (files: readonly File[]) => Promise<void>;
}

export function createFileActions(
  { get, set, showAt, showWithoutAddress, trouble }: ActionContext,
  goToAddress: () => Promise<void>,
): FileActions {
  const openSurvey = async (files: Parameters<typeof sendSurvey>[0]): Promise<void> => {
    set({ busy: true, trouble: null });
    const { id } = await sendSurvey(files);
    set({ busy: false });
    const address = writeAddress({ kind: "survey", id });
    // The same files once more: the address stays, and what they contain is shown anew.
    if (location.hash === address) await goToAddress();
    else location.hash = address;
  };

  /** A description of evidence is kept as a draft, and opened in its form. */
  const openEvidence = async (file: File): Promise<void> => {
    set({ busy: true, trouble: null });
    try {
      const { kind, document } = await openEvidenceFile(file);
      const { id } = await createEvidence({ kind, document, files: [] });
      set({ busy: false });
      location.hash = writeAddress(
        kind === "survey" ? { kind: "survey-setup", id } : { kind: "evidence-form", form: kind, id },
      );
    } catch (error) {
      trouble(fillText(words.actions.notOpened, { file: file.name }), error);
    }
  };

  return {
    open: async (files) => {
      const file = files[0];
      if (file === undefined) return;
      const { shown } = get();
      // A survey being set up takes logs; a description comes with its own log, as everywhere.
      if (shown.kind === "survey-setup" && files.every(({ name }) => !/\.json$/i.test(name)))
        return (await import("../survey-setup/view.ts")).setUpView().take(files);
      // A form of evidence takes the logs and the files of its own kind.
      if (shown.kind === "evidence-form")
        return (await import("../evidence-forms/views.ts")).openView(shown.form)?.take(files);
      if (files.length === 1 && (await isEvidence(file))) return openEvidence(file);
      const opened = await openFiles(files);
      const title =
        files.length === 1
          ? fillText(words.actions.notOpened, { file: file.name })
          : fillText(words.actions.filesNotOpened, { n: String(files.length) });
      if (opened.kind === "refused") {
        set({ trouble: { title, message: words.actions.stillThere, problems: opened.problems } });
        return;
      }
      try {
        switch (opened.kind) {
          case "study":
            return showWithoutAddress({
              kind: "study",
              study: { id: null, file: file.name, document: opened.document },
            });
          case "survey":
            return await openSurvey(opened.files);
          case "record":
            return showWithoutAddress(await recordFromFile(file, opened.document));
          case "table":
            return showAt(writeAddress({ kind: "import" }), { kind: "import", file });
        }
      } catch (error) {
        trouble(title, error);
      }
    },
  };
}

async function recordFromFile(file: File, document: unknown): Promise<Shown> {
  const { name } = file;
  const [{ record, seal, altered }, text] = await Promise.all([readRecord(document), file.text()]);
  const { count } = record.trials;
  const run: Run = {
    // No run of the server's has such an id: they are made of letters, digits and hyphens.
    id: `file:${name}`,
    title: record.study.title,
    state: "finished",
    trials: count,
    limit: count,
    record,
    error: null,
    file: { name, text, seal, altered },
  };
  return { kind: "run", run, measurand: null, cut: false };
}
