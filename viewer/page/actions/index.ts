import type { Store } from "../state.ts";
import { createContext, type RoomLoader } from "./context.ts";
import { createFileActions, type FileActions } from "./files.ts";
import { createLibraryActions, type LibraryActions } from "./library.ts";
import { createNavigation, type NavigationActions } from "./navigation.ts";
import { createOwnStudyActions, type OwnStudyActions } from "./own-studies.ts";
import { createRunActions, type RunActions } from "./runs.ts";
import { createStudyActions, type StudyActions } from "./studies.ts";
import { createSurveyActions, type SurveyActions } from "./surveys.ts";

/** What a reader can do. */
export interface Actions
  extends NavigationActions, RunActions, LibraryActions, FileActions, StudyActions, SurveyActions, OwnStudyActions {
  /** Dismisses the message about what went wrong. */
  readonly dismiss: () => void;
}

export function createActions(store: Store, loader: RoomLoader): Actions {
  const context = createContext(store, loader);
  const library = createLibraryActions(context);
  const { showRun, ...runs } = createRunActions(context, library.refreshLists);
  const navigation = createNavigation(context, showRun, library.refreshLists);
  return {
    ...navigation,
    ...runs,
    ...library,
    ...createFileActions(context, navigation.goToAddress),
    ...createStudyActions(context),
    ...createOwnStudyActions(context, library.refreshLists),
    ...createSurveyActions(context, runs.runStudy),
    dismiss: () => context.set({ trouble: null }),
  };
}
