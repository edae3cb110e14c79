import { FLUIDS } from "../../present/fluids.ts";
import { html } from "../draw/node.ts";
import { choice, labelled, numberInput, textInput, type Spots } from "./controls.ts";
import type { Draft } from "./draft.ts";

const FIGURES: readonly (readonly [field: string, label: string, help: string])[] = [
  ["setTemperature", "Set temperature, °C", ""],
  ["lowestTemperature", "Lowest temperature between runs, °C", "The set temperature or 20 °C if left empty"],
  ["flashPoint", "Flash point, closed cup, °C", "By the fluid’s safety data sheet"],
  ["overTemperatureCutOut", "Over-temperature cut-out, °C", "The independent one"],
  ["underTemperatureCutOut", "Under-temperature cut-out, °C", ""],
  ["flashPointMargin", "Least distance to the flash point, K", "10 if left empty"],
  ["usableRange", "Usable range, °C", "By the fluid’s data sheet: 5; 90"],
];

export const bathWords = ({ bath }: Draft): string => {
  const fluid = FLUIDS.find(([kind]) => kind !== "" && kind === bath["fluid"])?.[1];
  return fluid === undefined
    ? "not stated: the general cautions stand"
    : `${fluid}, ${bath["setTemperature"] ?? "…"} °C`;
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
    html(
      "p",
      { class: "note" },
      "With these the run checks flash point, cut-outs and range of the bath, and warns. The fluid’s safety data sheet, local codes and qualified persons decide.",
    ),
    html(
      "div",
      { class: "fields" },
      labelled(
        { place: "bath.fluid", label: "Fluid", name: "fluid of the bath" },
        choice(fluid, fluids, (kind) => set("fluid", kind)),
        spots,
      ),
      labelled(
        { place: "bath.name", label: "The bath’s name", name: "name of the bath" },
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
