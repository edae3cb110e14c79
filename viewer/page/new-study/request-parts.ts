import { html } from "../draw/node.ts";
import { bathFields, bathWords } from "./bath-fields.ts";
import { conformityFields, conformityWords } from "./conformity-fields.ts";
import { labelled, numberInput, textArea } from "./controls.ts";
import { correlationFields } from "./correlation-fields.ts";
import { declaredBy, type Draft } from "./draft.ts";
import { fold, type Fold } from "./fold.ts";
import { isEmptyRow, isNewKey } from "./row.ts";
import { settingsFields, settingsWords } from "./settings-fields.ts";
import { sweepFields, sweepWords } from "./sweep-fields.ts";
import type { TableHost } from "./table-host.ts";
import { shownRows } from "./table-shape.ts";
import { symbolText } from "../../present/symbol.ts";

/** Everything that is asked beyond the table, each folded away until it is used. */
export interface RequestParts {
  readonly element: HTMLElement;
  readonly draw: () => void;
  /** Says in each summary what the part states now. */
  readonly say: () => void;
}

export function createRequestParts(host: TableHost): RequestParts {
  const element = html("div", { class: "request-parts" });
  const opened = new Map<string, boolean>();
  let sayings: (() => void)[] = [];

  const draw = (): void => {
    for (const place of host.spots.keys()) if (PLACES.test(place)) host.spots.delete(place);
    sayings = [];
    const { draft, spots } = host;
    const part = (
      id: string,
      name: string,
      used: boolean,
      words: () => string,
      fill: () => HTMLElement,
      /** What of the table its questions are about: they are asked anew when it is another. */
      about: () => string = () => "",
    ): Fold => {
      const body = html("div", {}, fill());
      const made = fold(id, name, opened.get(id) ?? used, body);
      let asked = about();
      const renew = (): void => {
        if (asked === about() || body.contains(document.activeElement)) return;
        asked = about();
        body.replaceChildren(fill());
      };
      made.element.addEventListener("toggle", () => {
        opened.set(id, made.element.open);
        renew();
      });
      sayings.push(() => {
        made.say(words());
        renew();
      });
      return made;
    };
    const rowsNow = (): string =>
      JSON.stringify(shownRows(draft(), host.shape()).map((row) => [row.key, wordsOf(row), isEmptyRow(row)]));
    const resultsNow = (): string => JSON.stringify(measurandsOf(host));
    const change = (changed: Partial<Draft>, where: string): void => host.change({ ...draft(), ...changed }, where);
    const now = draft();
    const declared = declaredBy(now);
    element.replaceChildren(
      ...[
        part(
          "correlations",
          "Which inputs depend on one another?",
          now.correlations.length > 0,
          () => correlationWords(draft()),
          () => dependence(host),
          rowsNow,
        ),
        part(
          "conformity",
          "Is there a tolerance to conform to?",
          now.conformity.length > 0,
          () => conformityWords(draft()),
          () =>
            conformityFields(draft(), measurandsOf(host), spots, (conformity, where) => change({ conformity }, where)),
          resultsNow,
        ),
        part(
          "sweep",
          "Over a range?",
          now.sweep !== null,
          () => sweepWords(draft()),
          () =>
            sweepFields(draft(), shownRows(draft(), host.shape()), host.kinds(), spots, (sweep, where) =>
              change({ sweep }, where),
            ),
          rowsNow,
        ),
        part(
          "sensitivity",
          "What does each input do, without a straight line?",
          now.sensitivity !== null,
          () => (draft().sensitivity === null ? "not asked for" : "asked for"),
          () => sensitivity(host),
        ),
        ...(declared === null || Object.keys(now.bath).length > 0
          ? [
              part(
                "bath",
                "The bath itself, for its safety",
                Object.keys(now.bath).length > 0,
                () => bathWords(draft()),
                () => bathFields(draft(), spots, (bath, where) => change({ bath }, where)),
              ),
            ]
          : []),
        part(
          "notes",
          "Notes",
          now.notes !== "",
          () => (draft().notes === "" ? "none" : ""),
          () => notesField(host),
        ),
        part(
          "settings",
          "Coverage, digits, trials, seed",
          false,
          () => settingsWords(draft()),
          () => settingsFields(draft(), spots, (changed) => change(changed, `settings.${Object.keys(changed).join()}`)),
        ),
      ].map((made) => made.element),
      ...untouchedParts(Object.keys(now.rest)),
    );
    say();
  };
  const say = (): void => {
    for (const one of sayings) one();
  };
  return { element, draw, say };
}

const PLACES = /^(correlations|conformity|sweep|sensitivity|bath|coverage|notes|trials|maximumTrials|seed)(\.|$)/;

const correlationWords = ({ correlations }: Draft): string =>
  correlations.length === 0 ? "none stated" : `${correlations.length} stated`;

function dependence(host: TableHost): HTMLElement {
  const rows = shownRows(host.draft(), host.shape());
  const stated = rows.filter((row) => !isEmptyRow(row));
  const names = stated.map((row): readonly [string, string] => [row.key, wordsOf(row)]);
  return correlationFields(names, host.draft().correlations, host.spots, (correlations, where) =>
    host.change({ ...host.draft(), correlations }, where),
  );
}

const wordsOf = ({ symbol, meaning }: { readonly symbol: string; readonly meaning: string }): string =>
  [symbolText(symbol), meaning].filter((text) => text !== "").join(": ") || "a row without a symbol";

/** Results by the key that a statement about them has. */
function measurandsOf(host: TableHost): (readonly [string, string, string])[] {
  const { declared, measurands } = host.shape();
  if (declared === null)
    return Object.entries(measurands).map(([name, quantity]) => [name, wordsOf(quantity), quantity.unit]);
  const { results, conformity } = host.draft();
  return results.map((result) => [
    declared === "additive" && isNewKey(result.key)
      ? conformity.some(({ measurand }) => measurand === "result")
        ? "result"
        : ""
      : result.key,
    wordsOf(result),
    result.unit,
  ]);
}

function sensitivity(host: TableHost): HTMLElement {
  const element = html("div", {});
  const draw = (): void => {
    const asked = host.draft().sensitivity;
    host.spots.delete("sensitivity.trials");
    const box = html("input", { type: "checkbox", id: "ask-sensitivity", checked: asked !== null });
    box.addEventListener("change", () => {
      host.change({ ...host.draft(), sensitivity: box.checked ? "" : null }, "");
      draw();
      document.getElementById("ask-sensitivity")?.focus();
    });
    element.replaceChildren(
      html(
        "p",
        { class: "tick" },
        box,
        html(
          "label",
          { for: "ask-sensitivity" },
          "Work out what share of the variance each input has, alone and with others",
        ),
      ),
      html(
        "p",
        { class: "note" },
        "It takes as long as several runs: each trial costs 2 + 2n evaluations of a model with n inputs.",
      ),
      ...(asked === null
        ? []
        : [
            html(
              "div",
              { class: "fields" },
              labelled(
                {
                  place: "sensitivity.trials",
                  label: "Trials of it",
                  name: "trials of the sensitivity",
                  help: "25 000 to 2 000 000; 100 000 if left empty",
                },
                numberInput(asked, (text) => host.change({ ...host.draft(), sensitivity: text }, "sensitivity")),
                host.spots,
              ),
            ),
          ]),
    );
  };
  draw();
  return element;
}

const notesField = (host: TableHost): HTMLElement =>
  labelled(
    { place: "notes", label: "Notes", name: "notes", help: "Anything a reader of the sheet should know", wide: true },
    textArea(host.draft().notes, 3, (notes) => host.change({ ...host.draft(), notes }, "notes")),
    host.spots,
  );

/** Says that the study states something that the form has no field for. */
const untouchedParts = (names: readonly string[]): HTMLElement[] =>
  names.length === 0
    ? []
    : [
        html(
          "p",
          { class: "note" },
          `The study has ${names.length === 1 ? "a part" : `${names.length} parts`} that this form has no field for; ${names.length === 1 ? "it stays as it is" : "they stay as they are"}.`,
        ),
      ];
