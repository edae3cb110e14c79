import { words } from "../later-words.ts";
import type { TableReading } from "../../api/budget-tables.ts";
import { html, type Child } from "../draw/node.ts";
import { choice, textInput } from "../new-study/controls.ts";
import type { Describing } from "./describing.ts";
import type { Session, SessionActions } from "./session.ts";

const field = (id: string, label: Child, control: HTMLInputElement | HTMLSelectElement, help = ""): HTMLElement => {
  control.id = id;
  if (help !== "") control.setAttribute("aria-describedby", `${id}-help`);
  return html(
    "p",
    { class: "field" },
    html("label", { for: id }, label),
    control,
    help === "" ? null : html("span", { class: "note", id: `${id}-help` }, help),
  );
};

/** What holds of the table as a whole: its sheet, its signs, and the unit of figures that have none. */
export function tablePart(reading: TableReading, { state, replace }: SessionActions): HTMLElement {
  const { mapping, sheets } = reading;
  const hasDivisors = Object.values(mapping.columns).some(({ field: kind }) => kind === "divisor");
  const unit = textInput(mapping.unit, () => {});
  unit.addEventListener("change", () => state({ unit: unit.value.trim() }));
  return html(
    "div",
    { class: "fields" },
    sheets.length < 2
      ? null
      : field(
          "import-sheet",
          words.import.sheet,
          choice(
            mapping.sheet ?? sheets[0]!,
            sheets.map((name) => [name, name] as const),
            // Columns and rows of one sheet say nothing of another.
            (sheet) => replace({ sheet }),
          ),
        ),
    field(
      "import-decimal",
      words.import.decimal,
      choice(
        mapping.decimal,
        [
          [".", words.import.point],
          [",", words.import.comma],
        ],
        (decimal) => state({ decimal }),
      ),
    ),
    hasDivisors
      ? field(
          "import-divisors",
          words.import.divisors,
          choice(
            mapping.divisors,
            [
              ["divide", words.import.divided],
              ["multiply", words.import.multiplied],
            ],
            (divisors) => state({ divisors }),
          ),
        )
      : null,
    field("import-unit", words.import.unitless, unit),
  );
}

/** Title of the study, and what its result is: what a table seldom says. */
export function describingPart({ describing, reading }: Session, { describe }: SessionActions): HTMLElement {
  const input = (name: keyof Describing, placeholder: string): HTMLInputElement =>
    textInput(describing[name], (value) => describe({ [name]: value }), { placeholder });
  return html(
    "div",
    { class: "fields" },
    field("import-title", words.import.studyTitle, input("title", reading?.study?.title ?? reading?.title ?? "")),
    field("import-meaning", words.import.meaning, input("meaning", words.import.sum)),
    field("import-symbol", words.import.resultSymbol, input("symbol", "y")),
    field("import-result-unit", words.import.resultUnit, input("unit", reading?.unit ?? "")),
  );
}
