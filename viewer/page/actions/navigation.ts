import { readAddress, type Address } from "../address.ts";
import { listFittingStudies, listSurveys, readRun, readStudy, readSurvey } from "../api.ts";
import { BLANK } from "../new-study/draft.ts";
import { keptDraft } from "../new-study/keeping.ts";
import { NOTHING, RUNS, type Shown } from "../shown.ts";
import type { ActionContext } from "./context.ts";
import type { ShowRun } from "./runs.ts";

export interface NavigationActions {
  /** Shows what the address names. */
  readonly goToAddress: () => Promise<void>;
}

export function createNavigation(
  { get, set, ask, show, trouble }: ActionContext,
  showRun: ShowRun,
  refreshLists: () => Promise<void>,
): NavigationActions {
  return {
    goToAddress: async () => {
      const address = readAddress(location.hash);
      const current = ask();
      if (address.kind === "nothing" || address.kind === "runs") {
        // Runs may have ended since the list was read.
        if (get().runs !== null) void refreshLists();
        return show(address.kind === "runs" ? RUNS : NOTHING);
      }
      if (address.kind === "help") return show(address);
      if (address.kind === "import") return show({ kind: "import", file: null });
      if (address.kind === "new") return show({ kind: "draft", start: keptDraft() ?? BLANK });
      const { shown } = get();
      if (address.kind === "run" && shown.kind === "run" && shown.run.id === address.id)
        return set({ shown: { ...shown, measurand: address.measurand } });
      set({ busy: true });
      try {
        const found = await read(address);
        if (!current()) return;
        if (found.kind === "run") showRun(found.run, found.measurand);
        else show(found);
      } catch (error) {
        if (current()) trouble(notShown(address), error);
      }
    },
  };
}

type Readable = Exclude<Address, { readonly kind: "nothing" | "runs" | "help" | "import" | "new" }>;

/** Asks the server for what an address names. */
async function read(address: Readable): Promise<Shown> {
  switch (address.kind) {
    case "run":
      return { kind: "run", run: await readRun(address.id), measurand: address.measurand, cut: false };
    case "comparison":
      return { kind: "comparison", runs: await Promise.all([readRun(address.id), readRun(address.with)]) };
    case "surveys":
      return { kind: "surveys", surveys: await listSurveys() };
    case "survey": {
      const [survey, studies] = await Promise.all([readSurvey(address.id), listFittingStudies(address.id)]);
      return { kind: "survey", shown: { survey, studies } };
    }
    case "study":
      return {
        kind: "study",
        study: { id: address.id, file: null, document: await readStudy(address.id) },
      };
  }
}

function notShown(address: Readable): string {
  switch (address.kind) {
    case "surveys":
      return "The surveys cannot be listed";
    case "comparison":
      return "The comparison cannot be shown";
    default:
      return `The ${address.kind} “${address.id}” cannot be shown`;
  }
}
