import { html } from "../draw/node.ts";
import { createEquationField, type EquationField } from "../equation/field.ts";
import { idOf, type Spots } from "./controls.ts";
import type { Draft } from "./draft.ts";
import { statedQuantities, withEquationRows } from "./equation-rows.ts";

/** Where the study keeps the equation. */
const PLACE = "parameters.equation";

/**
 * The field of a typed equation, which says itself what is wrong with the text. What the equation takes and gives gets
 * a row in the table.
 *
 * @param change takes the draft, and the field in which it was changed
 * @param rowsChanged the table has other rows now
 */
export function equationPart(
  draft: () => Draft,
  spots: Spots,
  change: (draft: Draft, where: string) => void,
  rowsChanged: () => void,
): EquationField {
  const field = createEquationField({
    id: idOf(PLACE),
    text: draft().equation,
    quantities: () => statedQuantities(draft()),
    title: () => draft().title,
    change: (equation) => change({ ...draft(), equation }, PLACE),
    checked: (read) => {
      const next = read === null ? draft() : withEquationRows(draft(), read);
      if (next === draft()) return;
      change(next, PLACE);
      rowsChanged();
    },
  });
  field.control.dataset["place"] = PLACE;
  field.control.dataset["checked"] = "itself";
  spots.set(PLACE, { place: PLACE, name: "equation", control: field.control, message: html("span", {}) });
  return field;
}
