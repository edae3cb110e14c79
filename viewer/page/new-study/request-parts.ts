import { words as pageWords } from "../later-words.ts";
import { counted } from "../counted.ts";
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
          pageWords.studyForm.parts.correlations,
          now.correlations.length > 0,
          () => correlationWords(draft()),
          () => dependence(host),
          rowsNow,
        ),
        part(
          "conformity",
          pageWords.studyForm.parts.conformity,
          now.conformity.length > 0,
          () => conformityWords(draft()),
          () =>
            conformityFields(draft(), measurandsOf(host), spots, (conformity, where) => change({ conformity }, where)),
          resultsNow,
        ),
        part(
          "sweep",
          pageWords.studyForm.parts.sweep,
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
          pageWords.studyForm.parts.sensitivity,
          now.sensitivity !== null,
          () => (draft().sensitivity === null ? pageWords.studyForm.notAsked : pageWords.studyForm.asked),
          () => sensitivity(host),
        ),
        ...(declared === null || Object.keys(now.bath).length > 0
          ? [
              part(
                "bath",
                pageWords.studyForm.parts.bath,
                Object.keys(now.bath).length > 0,
                () => bathWords(draft()),
                () => bathFields(draft(), spots, (bath, where) => change({ bath }, where)),
              ),
            ]
          : []),
        part(
          "notes",
          pageWords.studyForm.parts.notes,
          now.notes !== "",
          () => (draft().notes === "" ? pageWords.studyForm.noneYet : ""),
          () => notesField(host),
        ),
        part(
          "settings",
          pageWords.studyForm.parts.settings,
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
  correlations.length === 0
    ? counted(pageWords.studyForm.stated, correlations.length)
    : counted(pageWords.studyForm.stated, correlations.length);

function dependence(host: TableHost): HTMLElement {
  const rows = shownRows(host.draft(), host.shape());
  const stated = rows.filter((row) => !isEmptyRow(row));
  const names = stated.map((row): readonly [string, string] => [row.key, wordsOf(row)]);
  return correlationFields(names, host.draft().correlations, host.spots, (correlations, where) =>
    host.change({ ...host.draft(), correlations }, where),
  );
}

const wordsOf = ({ symbol, meaning }: { readonly symbol: string; readonly meaning: string }): string =>
  [symbolText(symbol), meaning].filter((text) => text !== "").join(": ") || pageWords.studyForm.noSymbol;

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
      html("p", { class: "tick" }, box, html("label", { for: "ask-sensitivity" }, pageWords.studyForm.sensitivity.ask)),
      html("p", { class: "note" }, pageWords.studyForm.sensitivity.cost),
      ...(asked === null
        ? []
        : [
            html(
              "div",
              { class: "fields" },
              labelled(
                {
                  place: "sensitivity.trials",
                  label: pageWords.studyForm.sensitivity.trials,
                  name: pageWords.studyForm.sensitivity.said,
                  help: pageWords.studyForm.sensitivity.trialsHelp,
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
    {
      place: "notes",
      label: pageWords.studyForm.parts.notes,
      name: pageWords.studyForm.said.notes,
      help: pageWords.studyForm.notesHelp,
      wide: true,
    },
    textArea(host.draft().notes, 3, (notes) => host.change({ ...host.draft(), notes }, "notes")),
    host.spots,
  );

/** Says that the study states something that the form has no field for. */
const untouchedParts = (names: readonly string[]): HTMLElement[] =>
  names.length === 0 ? [] : [html("p", { class: "note" }, counted(pageWords.studyForm.otherParts, names.length))];
