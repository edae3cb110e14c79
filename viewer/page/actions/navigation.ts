import { words } from "../language.ts";
import { fillText } from "../../present/fill.ts";
import { readAddress, type Address } from "../address.ts";
import {
  listEvidence,
  listWatchedLogs,
  listFittingStudies,
  listSurveys,
  readDraft,
  readEvidence,
  readEvidenceVersion,
  readRun,
  readStudy,
  readSurvey,
} from "../api.ts";
import { beginDraft, goOnWith, keptDraft } from "../drafts/kept.ts";
import { freshDraft } from "../drafts/fresh.ts";
import type { ShownEvidence } from "../evidence/frame.ts";
import type { Shown } from "../shown.ts";
import { openedBefore } from "../carried-over.ts";
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
      // What was opened from a file has no address: the browser's history has it, also for who comes back to it.
      const opened = openedBefore();
      if (opened !== null) return show(opened);
      if (isListed(address)) {
        // Runs may have ended since the list was read.
        if (get().runs !== null) void refreshLists();
        return show(address);
      }
      if (address.kind === "help") return show(address);
      if (address.kind === "import") return show({ kind: "import", file: null });
      if (address.kind === "new") {
        // What the laboratory's studies begin with is known once the lists were read.
        if (get().laboratory === null) await refreshLists();
        if (current()) show({ kind: "draft", start: beginDraft(freshDraft(get().laboratory), null).form });
        return;
      }
      const kept = keptDraft();
      // What is written here may be newer than what the server has.
      if (address.kind === "draft" && kept?.id === address.id) return show({ kind: "draft", start: kept.form });
      const { shown } = get();
      if (address.kind === "run" && shown.kind === "run" && shown.run.id === address.id)
        // What was asked for before comes too late, and is waited for no more.
        return set({ shown: { ...shown, measurand: address.measurand }, busy: false });
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

/** Views that the lists fill: nothing more is asked for them. */
const LISTED = ["nothing", "runs", "workers", "own", "laboratory", "calibration", "outlook"] as const;
type Listed = Extract<Address, { readonly kind: (typeof LISTED)[number] }>;
const isListed = (address: Address): address is Listed => LISTED.some((kind) => kind === address.kind);

type Readable = Exclude<Address, { readonly kind: Listed["kind"] | "help" | "import" | "new" }>;

/** Asks the server for what an address names. */
async function read(address: Readable): Promise<Shown> {
  switch (address.kind) {
    case "run":
      return { kind: "run", run: await readRun(address.id), measurand: address.measurand, cut: false };
    case "comparison":
      return { kind: "comparison", runs: olderFirst(await Promise.all([readRun(address.id), readRun(address.with)])) };
    case "draft":
      return { kind: "draft", start: goOnWith(await readDraft(address.id)).form };
    case "surveys":
      return { kind: "surveys", surveys: await listSurveys() };
    case "watch":
      return { kind: "watch", logs: await listWatchedLogs(), id: address.id };
    case "evidence":
      return { kind: "evidence", kept: await listEvidence() };
    case "evidence-form": {
      return { kind: "evidence-form", form: address.form, shown: await shownEvidence(address) };
    }
    case "survey-setup":
      return { kind: "survey-setup", shown: await shownEvidence(address) };
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

/** Evidence in its form, or a version of it to look at. */
async function shownEvidence({
  id,
  version,
}: Extract<Address, { readonly kind: "evidence-form" | "survey-setup" }>): Promise<ShownEvidence> {
  if (id === null) return { own: null };
  if (version === undefined) return { own: await readEvidence(id) };
  const [own, saved] = await Promise.all([readEvidence(id), readEvidenceVersion(id, version)]);
  return { own, version: saved };
}

/** Whatever was chosen first: a comparison says what became of the older run. */
const olderFirst = <T extends { readonly startedAt: string }>([a, b]: readonly [T, T]): readonly [T, T] =>
  a.startedAt <= b.startedAt ? [a, b] : [b, a];

function notShown(address: Readable): string {
  switch (address.kind) {
    case "surveys":
      return words.actions.surveysNotListed;
    case "watch":
    case "evidence":
      return words.actions.evidenceNotListed;
    case "evidence-form":
      return words.actions.evidenceNotShown;
    case "survey-setup":
      return words.actions.surveyNotSetUp;
    case "comparison":
      return words.actions.comparisonNotShown;
    default:
      return fillText(words.actions.notShown[address.kind], { id: address.id });
  }
}
