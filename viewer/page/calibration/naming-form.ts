import type { KeptCalibration } from "../../api/kept-calibrations.ts";
import { html } from "../draw/node.ts";
import { words as pageWords } from "../later-words.ts";

const words = pageWords.calibrationRoom;

/** Name and note of a kept calibration. @param keep sends both */
export function namingForm(
  { name, note }: Pick<KeptCalibration, "name" | "note">,
  keep: (name: string, note: string) => void,
): HTMLElement {
  const named = html("input", { type: "text", id: "calibration-name", maxlength: 200, value: name, required: true });
  const noted = html("textarea", { id: "calibration-note", rows: 3, maxlength: 10_000 });
  noted.value = note ?? "";
  const problem = html("p", { class: "field-problem", id: "calibration-name-problem" });
  const send = (): void => {
    const wanted = named.value.trim();
    problem.textContent = wanted === "" ? words.wrongName : "";
    named.toggleAttribute("aria-invalid", false);
    named.removeAttribute("aria-describedby");
    if (wanted !== "") return keep(wanted, noted.value);
    named.setAttribute("aria-invalid", "true");
    named.setAttribute("aria-describedby", "calibration-name-problem");
    named.focus();
  };
  return html(
    "details",
    { class: "calibration-naming", id: "calibration-naming" },
    html("summary", {}, words.nameAndNote),
    html(
      "form",
      {
        novalidate: true,
        onsubmit: (event: SubmitEvent) => {
          event.preventDefault();
          send();
        },
      },
      html("p", { class: "certificate-field" }, html("label", { for: "calibration-name" }, words.name), named),
      problem,
      html("p", { class: "certificate-field" }, html("label", { for: "calibration-note" }, words.note), noted),
      html("p", {}, html("button", { type: "submit", class: "quiet", id: "keep-calibration-name" }, words.keepName)),
    ),
  );
}
