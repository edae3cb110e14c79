import { fillText } from "../../present/fill.ts";
import { SUB_RANGES, subRangeNumbered } from "../../present/sub-ranges.ts";
import { plain } from "../numbers.ts";
import { html, type Child } from "../draw/node.ts";
import { typedHead, typedTable } from "../evidence/typed-table.ts";
import { cell, field, input, redrawTyping, select } from "../evidence/field.ts";
import { words } from "../later-words.ts";
import type { LoggedDraft } from "./draft.ts";
import { UNITS } from "./log-part.ts";
import type { Conversion, Thermometer } from "./thermometer-document.ts";

/** What a form has beside the names and units of its thermometers. */
export interface ThermometerOptions {
  /** A column of its own, such as which one is the reference. */
  readonly role?: { readonly head: string; readonly cell: (one: Thermometer, k: number) => HTMLElement };
  /** Another name was given to one. */
  readonly renamed?: (before: string, name: string) => void;
  /** What stands below the table. */
  readonly below?: (draft: LoggedDraft) => Child;
  readonly title?: string;
  /** Whether the columns of a log are told: not if the readings are typed. */
  readonly logged?: () => boolean;
}

/**
 * The thermometers, each with its name, its unit and, if it is read as a resistance, its coefficients.
 *
 * @param changed told whether the table is to be drawn anew
 */
export function createThermometerPart(
  changed: (redrawn: boolean) => void,
  options: ThermometerOptions = {},
): {
  readonly element: HTMLElement;
  readonly draw: (draft: LoggedDraft) => void;
} {
  const body = html("div", {});
  return {
    element: html(
      "section",
      { class: "panel", id: "setup-thermometers", "aria-labelledby": "setup-thermometers-title" },
      html("h2", { id: "setup-thermometers-title", tabindex: -1 }, options.title ?? words.thermometers.title),
      html("span", { class: "field-problem", id: "setup-thermometers-problem" }),
      body,
    ),
    draw: (draft) =>
      redrawTyping(body, () =>
        body.replaceChildren(
          tableOf(draft, changed, options),
          ...draft.thermometers.flatMap((one, k) => (one.unit === "Ω" ? [conversionOf(one, k, changed)] : [])),
          ...[options.below?.(draft) ?? []].flat().filter((one): one is HTMLElement => one !== null),
        ),
      ),
  };
}

function tableOf(
  draft: LoggedDraft,
  changed: (redrawn: boolean) => void,
  { role, renamed, logged = () => true }: ThermometerOptions,
): HTMLElement {
  const { thermometers } = words;
  if (draft.thermometers.length === 0) return html("p", { class: "note" }, thermometers.none);
  const told = logged();
  return typedTable(
    thermometers.table,
    [
      thermometers.name,
      ...(told ? [thermometers.column] : []),
      thermometers.unit,
      ...(role === undefined ? [] : [role.head]),
    ].map(typedHead),
    draft.thermometers.map((one, k) => {
      const id = `setup-thermometer-${k}`;
      const of = one.column || one.name;
      const unit = select(one.unit, [["", told ? thermometers.asHeading : "°C"], ...unitsFor(told)], (now) => {
        one.unit = now;
        changed(true);
      });
      return html(
        "tr",
        {},
        cell(
          `${id}-name`,
          fillText(thermometers.nameOf, { number: String(k + 1) }),
          renaming(draft, one, id, told, renamed, changed),
        ),
        told
          ? html(
              "td",
              { class: "words" },
              draft.logs.length > 1 ? fillText(thermometers.columnOf, { column: of, file: one.file }) : of,
            )
          : null,
        cell(`${id}-unit`, fillText(thermometers.unitOf, { name: one.name }), unit),
        role === undefined ? null : role.cell(one, k),
      );
    }),
  );
}

const unitsFor = (told: boolean): (readonly [string, string])[] =>
  UNITS.filter((unit) => told || unit !== "°C").map((unit) => [unit, unit] as const);

/** The field of a name: a thermometer keeps it if the other is none, or is taken. */
function renaming(
  draft: LoggedDraft,
  one: Thermometer,
  id: string,
  told: boolean,
  renamed: ThermometerOptions["renamed"],
  changed: (redrawn: boolean) => void,
): HTMLInputElement {
  const element = input(one.name, () => undefined);
  const say = (text: string): void => {
    document.getElementById(`${id}-name-problem`)!.textContent = text;
  };
  element.addEventListener("change", () => {
    const before = one.name;
    const name = element.value.trim();
    const taken = draft.thermometers.some((other) => other !== one && other.name === name);
    if (name === "" || taken) {
      element.value = before;
      return say(name === "" ? words.thermometers.needsName : fillText(words.thermometers.taken, { name }));
    }
    say("");
    if (told && one.column === "") one.column = before;
    one.name = name;
    if (one.column === name) one.column = "";
    for (const step of draft.steps) {
      step.at[name] = step.at[before] ?? "";
      if (name !== before) delete step.at[before];
    }
    renamed?.(before, name);
    changed(false);
  });
  return element;
}

/** How a resistance becomes a temperature. */
function conversionOf(one: Thermometer, k: number, changed: (redrawn: boolean) => void): HTMLElement {
  const { thermometers } = words;
  const id = `setup-thermometer-${k}`;
  const typed = (name: string, label: string, value: string, put: (value: string) => void, help = ""): HTMLElement => {
    const element = input(value, put, { class: "figure" });
    element.addEventListener("change", () => changed(false));
    return field(`${id}-${name}`, label, element, help);
  };
  const choose = (value: string, options: readonly (readonly [string, string])[], put: (value: string) => void) =>
    select(value, options, (now) => {
      put(now);
      changed(true);
    });
  const r0 = (): HTMLElement => typed("r0", "R₀ / Ω", one.r0, (value) => (one.r0 = value), thermometers.r0Help);
  const fields = {
    iec: () => [r0()],
    own: () => [
      r0(),
      typed("a", "A / °C⁻¹", one.a, (value) => (one.a = value)),
      typed("b", "B / °C⁻²", one.b, (value) => (one.b = value)),
      typed("c", "C / °C⁻⁴", one.c, (value) => (one.c = value), thermometers.cHelp),
    ],
    its90: () => [
      typed(
        "triplePoint",
        "R(273.16 K) / Ω",
        one.triplePoint,
        (value) => (one.triplePoint = value),
        thermometers.tripleHelp,
      ),
      field(
        `${id}-subRange`,
        thermometers.subRange,
        choose(
          one.subRange,
          [
            ["", thermometers.choose],
            ...SUB_RANGES.map(
              ({ number, low, high }) =>
                [number, fillText(thermometers.subRangeFrom, { number, low: plain(low), high: plain(high) })] as const,
            ),
          ],
          (value) => (one.subRange = value),
        ),
      ),
      ...(subRangeNumbered(one.subRange)?.coefficients ?? []).map((name) =>
        typed(
          `deviation-${name}`,
          name === "ratioAtAl" ? thermometers.ratioAtAl : name,
          one.deviation[name] ?? "",
          (value) => (one.deviation[name] = value),
        ),
      ),
    ],
  } satisfies Record<Conversion, () => HTMLElement[]>;
  return html(
    "fieldset",
    { class: "conversion" },
    html("legend", {}, fillText(thermometers.conversion, { name: one.name })),
    html(
      "div",
      { class: "fields" },
      field(
        `${id}-conversion`,
        thermometers.by,
        choose(
          one.conversion,
          [
            ["iec", thermometers.iec],
            ["own", thermometers.own],
            ["its90", thermometers.its90],
          ],
          (value) => (one.conversion = value as Conversion),
        ),
        "",
        true,
      ),
      ...fields[one.conversion](),
    ),
    one.conversion === "its90" ? html("p", { class: "note" }, thermometers.its90Help) : null,
  );
}
