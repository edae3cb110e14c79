import { words } from "../later-words.ts";
import { FLUIDS } from "../fluids.ts";
import { html } from "../draw/node.ts";
import { choice, labelled, numberInput, textInput, type Spots } from "./controls.ts";
import type { Draft } from "./draft.ts";

const FIGURES: readonly (readonly [field: string, label: string, help: string])[] = [
  ["setTemperature", words.studyForm.bath.setTemperature, ""],
  ["lowestTemperature", words.studyForm.bath.lowest, words.studyForm.bath.lowestHelp],
  ["flashPoint", words.studyForm.bath.flashPoint, words.studyForm.bath.flashPointHelp],
  ["overTemperatureCutOut", words.studyForm.bath.over, words.studyForm.bath.overHelp],
  ["underTemperatureCutOut", words.studyForm.bath.under, ""],
  ["flashPointMargin", words.studyForm.bath.margin, words.studyForm.bath.marginHelp],
  ["usableRange", words.studyForm.bath.range, words.studyForm.bath.rangeHelp],
  ["viscosity", words.studyForm.bath.viscosity, words.studyForm.bath.viscosityHelp],
];

export const bathWords = ({ bath }: Draft): string => {
  const fluid = FLUIDS.find(([kind]) => kind !== "" && kind === bath["fluid"])?.[1];
  return fluid === undefined ? words.studyForm.bath.notStated : `${fluid}, ${bath["setTemperature"] ?? "…"} °C`;
};

/** Fluid, temperatures and cut-outs of the bath, for cautions about this bath in place of general ones. */
export function bathFields(
  draft: Draft,
  spots: Spots,
  change: (bath: Draft["bath"], where: string) => void,
): HTMLElement {
  let bath = draft.bath;
  const set = (field: string, text: string): void => {
    bath = { ...bath, [field]: text };
    change(bath, `bath.${field}`);
  };
  const fluid = bath["fluid"] ?? "";
  const fluids = FLUIDS.some(([kind]) => kind === fluid)
    ? FLUIDS
    : [...FLUIDS, [fluid, fluid.replaceAll("-", " ")] as const];
  return html(
    "div",
    {},
    html("p", { class: "note" }, words.studyForm.bath.note),
    html(
      "div",
      { class: "fields" },
      labelled(
        { place: "bath.fluid", label: words.studyForm.bath.fluid, name: words.studyForm.bath.saidFluid },
        choice(fluid, fluids, (kind) => set("fluid", kind)),
        spots,
      ),
      labelled(
        { place: "bath.name", label: words.studyForm.bath.name, name: words.studyForm.bath.saidName },
        textInput(bath["name"] ?? "", (text) => set("name", text)),
        spots,
      ),
      FIGURES.map(([field, label, help]) =>
        labelled(
          { place: `bath.${field}`, label, name: label, help },
          numberInput(bath[field] ?? "", (text) => set(field, text)),
          spots,
        ),
      ),
    ),
  );
}
