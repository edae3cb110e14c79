import type { Actions } from "./actions/index.ts";
import { createComparison } from "./compare/comparison.ts";
import { createLibrary } from "./library/library.ts";
import { createHelp } from "./help/view.ts";
import { createImport } from "./import/view.ts";
import { createForm } from "./new-study/form.ts";
import { createStart } from "./start/view.ts";
import { createLaboratory } from "./own-studies/laboratory.ts";
import { createOwnStudies } from "./own-studies/list.ts";
import { createOwnStudy } from "./own-studies/one.ts";
import type { State } from "./state.ts";
import type { ListedSurvey } from "../api/surveys.ts";
import type { createSurveyView } from "./survey/view.ts";

/**
 * The views whose element outlives redraws, because a reader types into them or reads their pictures: the first screen, the list of
 * runs, help, the form of a study, two runs side by side, and surveys.
 *
 * @returns draws the one that the state asks for and returns its element; `null` if another view is shown
 */
export function createStandingViews(actions: Actions): (state: State) => HTMLElement | null {
  const library = createLibrary(actions);
  const form = createForm(actions);
  const imports = createImport(actions);
  const comparison = createComparison();
  const help = createHelp();
  const start = createStart(actions);
  const ownStudies = createOwnStudies(actions);
  const ownStudy = createOwnStudy(actions);
  const laboratory = createLaboratory(actions);
  let survey: ReturnType<typeof createSurveyView> | null = null;
  let listed: { readonly surveys: readonly ListedSurvey[]; readonly element: HTMLElement } | null = null;
  return (state) => {
    const { shown } = state;
    switch (shown.kind) {
      case "run":
      case "study":
        return null;
      case "draft":
        return form.show(shown.start, state);
      case "import":
        return imports.show(shown.file);
      case "comparison":
        return comparison.show(shown.runs);
      case "survey":
        survey ??= shown.create((id, choice, run) => void actions.studyFrom(id, choice, run));
        return survey.show(shown.shown, state.busy);
      case "survey-setup":
        return shown.view.show(shown.shown);
      case "surveys":
        if (listed?.surveys !== shown.surveys) listed = { surveys: shown.surveys, element: shown.draw(shown.surveys) };
        return listed.element;
      case "help":
        return help.show(shown.word);
      case "own":
        return shown.id === null ? ownStudies.show(state) : ownStudy.show(state, shown.id);
      case "laboratory":
        return laboratory.show(state);
      case "runs":
        return library.show(state);
      case "nothing":
        return start.show(state);
    }
  };
}
