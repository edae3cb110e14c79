import { html } from "../draw/node.ts";
import type { SetUp } from "./draft.ts";
import { cell, input, select, redrawTyping } from "../evidence/field.ts";
import { UNITS } from "./log-part.ts";

/**
 * The thermometers, each with its name, its unit and, if it is logged as a resistance, its coefficients.
 *
 * @param changed told whether the table is to be drawn anew
 */
export function createThermometerPart(changed: (redrawn: boolean) => void): {
  readonly element: HTMLElement;
  readonly draw: (draft: SetUp) => void;
} {
  const body = html("div", {});
  return {
    element: html(
      "section",
      { class: "panel", id: "setup-thermometers", "aria-labelledby": "setup-thermometers-title" },
      html("h2", { id: "setup-thermometers-title", tabindex: -1 }, "Thermometers"),
      html("span", { class: "field-problem", id: "setup-thermometers-problem" }),
      body,
    ),
    draw: (draft) => redrawTyping(body, () => body.replaceChildren(tableOf(draft, changed))),
  };
}

function tableOf(draft: SetUp, changed: (redrawn: boolean) => void): HTMLElement {
  if (draft.thermometers.length === 0)
    return html(
      "p",
      { class: "note" },
      "None yet: they come from the columns of the log that are taken for thermometers.",
    );
  const resistances = draft.thermometers.some(({ unit }) => unit === "Ω");
  return html(
    "div",
    { class: "wide-table", tabindex: 0, role: "region", "aria-label": "Table of thermometers" },
    html(
      "table",
      { class: "plain entry" },
      html(
        "thead",
        {},
        html(
          "tr",
          {},
          [
            "name",
            "column of the log",
            "unit",
            ...(resistances ? ["R₀ / Ω", "A / °C⁻¹", "B / °C⁻²", "C / °C⁻⁴"] : []),
          ].map((head) => html("th", { scope: "col", class: "words" }, head)),
        ),
      ),
      html(
        "tbody",
        {},
        draft.thermometers.map((one, k) => {
          const id = `setup-thermometer-${k}`;
          const rename = (name: string): void => {
            const before = one.name;
            if (one.column === "") one.column = before;
            one.name = name;
            if (one.column === name) one.column = "";
            for (const step of draft.steps) {
              step.at[name] = step.at[before] ?? "";
              if (name !== before) delete step.at[before];
            }
            changed(false);
          };
          const renaming = input(one.name, () => undefined);
          renaming.addEventListener("change", () => {
            const name = renaming.value.trim();
            const taken = draft.thermometers.some((other) => other !== one && other.name === name);
            if (name === "" || taken) {
              renaming.value = one.name;
              document.getElementById(`${id}-name-problem`)!.textContent =
                name === "" ? "A thermometer needs a name." : `“${name}” is another thermometer.`;
            } else {
              document.getElementById(`${id}-name-problem`)!.textContent = "";
              rename(name);
            }
          });
          const own = (name: "r0" | "a" | "b" | "c", words: string): HTMLElement => {
            const element = input(one[name], (value) => (one[name] = value), { class: "figure" });
            element.addEventListener("change", () => changed(false));
            return cell(`${id}-${name}`, `${words} of ${one.name}`, element);
          };
          return html(
            "tr",
            {},
            cell(`${id}-name`, `Name of thermometer ${k + 1}`, renaming),
            html(
              "td",
              { class: "words" },
              `${one.column || one.name}${draft.logs.length > 1 ? ` of ${one.file}` : ""}`,
            ),
            cell(
              `${id}-unit`,
              `Unit of ${one.name}`,
              select(one.unit, [["", "as the heading says"], ...UNITS.map((unit) => [unit, unit] as const)], (unit) => {
                one.unit = unit;
                changed(true);
              }),
            ),
            ...(one.unit === "Ω"
              ? [own("r0", "R₀ in Ω"), own("a", "A"), own("b", "B"), own("c", "C")]
              : resistances
                ? [html("td", { colspan: 4 })]
                : []),
          );
        }),
      ),
    ),
    resistances
      ? html(
          "p",
          { class: "note" },
          "Without A, B and C the coefficients of IEC 60751 are used; without C alone, its C.",
        )
      : null,
  );
}
