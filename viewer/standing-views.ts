import type { Actions } from "./actions.ts";
import { createComparison } from "./compare/comparison.ts";
import { createLibrary } from "./library/library.ts";
import { createForm } from "./new-study/form.ts";
import type { State } from "./state.ts";

/**
 * The views whose element outlives redraws, because a reader types into them: the list of runs, the form of a study and
 * two runs side by side.
 *
 * @returns draws the one that the state asks for and returns its element; `null` where another view is asked for
 */
export function createStandingViews(actions: Actions): (state: State) => HTMLElement | null {
  const library = createLibrary(actions);
  const form = createForm(actions);
  const comparison = createComparison();
  return (state) => {
    if (state.run !== null || state.chosen !== null) return null;
    if (state.writing !== null) return form.show(state.writing, state.busy);
    if (state.compared !== null) return comparison.show(state.compared);
    return state.busy && state.runs === null ? null : library.show(state);
  };
}
