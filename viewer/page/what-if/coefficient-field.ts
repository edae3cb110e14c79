import { fillText } from "../../present/fill.ts";
import { messages } from "../language.ts";
import { plain } from "../numbers.ts";
import { html } from "../draw/node.ts";

/** A field for a correlation coefficient. */
export interface CoefficientField {
  readonly element: HTMLElement;
  set(r: number): void;
}

export function coefficientField(id: string, label: string, choose: (r: number) => void): CoefficientField {
  const said = html("span", { class: "note", id: `${id}-said`, role: "status" });
  let now = 0;
  const input = html("input", {
    type: "text",
    id,
    class: "figure",
    autocomplete: "off",
    "aria-describedby": `${id}-said`,
    onchange: () => {
      const text = input.value.trim().replace(/^−/, "-").replace(",", ".");
      const r = text === "" ? 0 : /^[+-]?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : Number.NaN;
      if (!(Math.abs(r) <= 1)) {
        input.setAttribute("aria-invalid", "true");
        said.textContent = fillText(messages.whatIfPanel.coefficientWrong, { value: input.value });
        return;
      }
      choose(r);
    },
  });
  return {
    element: html(
      "p",
      { class: "coefficient" },
      html("label", { for: id }, label),
      html("var", {}, "r"),
      " = ",
      input,
      said,
    ),
    set(r) {
      if (r !== now || !input.hasAttribute("aria-invalid")) input.value = plain(r);
      now = r;
      input.removeAttribute("aria-invalid");
      said.textContent = "";
    },
  };
}
