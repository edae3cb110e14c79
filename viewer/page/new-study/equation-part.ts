import { labelled, textArea, type Spots } from "./controls.ts";
import type { Draft } from "./draft.ts";

/**
 * The place of the equation in the form of a study whose model is typed. The table below declares its quantities.
 *
 * @param change takes the text as it is typed
 */
export const equationPart = (draft: Draft, spots: Spots, change: (equation: string) => void): HTMLElement =>
  labelled(
    {
      place: "parameters.equation",
      label: "Equation",
      name: "equation",
      help: "By the symbols of the table: e = t(R_X + δR, R_0) − t_S. Several lines define quantities that the next lines use",
      wide: true,
    },
    textArea(draft.equation, 3, change),
    spots,
  );
