import { withinSentence } from "../field-name.ts";
import { append, html } from "../draw/node.ts";
import { fillText } from "../../present/fill.ts";
import { words as pageWords } from "../later-words.ts";
import { createClassLimits } from "./class-limits.ts";
import { classParameters, classSpecification, isClass, takesClass, type ClassParameters } from "./class-tolerance.ts";
import { choice, idOf, labelled, numberInput, textInput, type Spots } from "./controls.ts";
import type { ConformityDraft, Draft } from "./draft.ts";

const words = pageWords.conformityForm;

/** Classes of IEC 60751, 5.1.3 and 5.1.2, the closest first: of thermometers, and of wound (W) and film (F) elements. */
const CLASSES = ["AA", "A", "B", "C"] as const;
const OF_ELEMENTS = ["W 0.1", "W 0.15", "W 0.3", "W 0.6", "F 0.1", "F 0.15", "F 0.3", "F 0.6"] as const;

const NONE: Omit<ConformityDraft, "measurand"> = {
  lower: "",
  upper: "",
  basis: "",
  guard: "",
  priorMean: "",
  priorDeviation: "",
  priorSource: "",
  specification: {},
};

/** The rule by which r is usually chosen. */
const RULES = [
  ["", pageWords.studyForm.rules.simple],
  ["1", pageWords.studyForm.rules.guarded],
  ["-1", pageWords.studyForm.rules.rejection],
] as const;

/** What conformity fields state, in a few words. */
export const conformityWords = ({ conformity }: Draft): string => {
  const stated = conformity.filter(
    ({ lower, upper, specification }) => lower !== "" || upper !== "" || Object.keys(specification).length > 0,
  );
  return stated.length === 0 ? pageWords.studyForm.notAsked : pageWords.studyForm.asked;
};

/**
 * Tolerance and decision rule of each result (JCGM 106).
 *
 * @param measurands by key, with what the reader knows each by and its unit
 * @param change takes the statements of all, and the field that was typed into
 */
export function conformityFields(
  draft: Draft,
  measurands: readonly (readonly [key: string, name: string, unit: string])[],
  spots: Spots,
  change: (all: readonly ConformityDraft[], where: string) => void,
): HTMLElement {
  let all = draft.conformity;
  const of = (key: string): ConformityDraft =>
    all.find(({ measurand }) => measurand === key) ?? { ...NONE, measurand: key };
  const set = (key: string, part: Partial<ConformityDraft>): void => {
    const next = { ...of(key), ...part };
    all = all.some(({ measurand }) => measurand === key)
      ? all.map((one) => (one.measurand === key ? next : one))
      : [...all, next];
    change(all, `conformity.${key}.${Object.keys(part).join()}`);
  };
  return html(
    "div",
    {},
    html("p", { class: "note" }, words.note),
    measurands.map(([key, name, unit]) => {
      const stated = of(key);
      const tolerance = html("span", { class: "fields" });
      const place = `conformity.${key === "" ? "result" : key}`;
      const field = (
        part: keyof Omit<ConformityDraft, "specification">,
        at: string,
        label: string,
        help = "",
        wide = false,
      ): HTMLElement =>
        labelled(
          {
            place: `${place}.${at}`,
            label,
            name: fillText(pageWords.studyForm.of, { what: withinSentence(label), whose: name }),
            help,
            wide,
          },
          (part === "basis" || part === "priorSource" ? textInput : numberInput)(stated[part], (text) =>
            set(key, { [part]: text }),
          ),
          spots,
        );
      const rule = RULES.some(([r]) => r === stated.guard);
      const labelIn = (label: string): string => fillText(words.of, { label, name });
      const parameter = (
        part: keyof ClassParameters,
        label: string,
        help: string,
        options: readonly (readonly [string, string])[] | null,
      ): HTMLElement => {
        const take = (text: string): void => {
          const before = classParameters(of(key).specification);
          // The class of an element names the element.
          const named = part === "class" && /^[WF] /.test(text) ? { element: "" } : {};
          const next = { ...before, ...named, [part]: text };
          set(key, { specification: classSpecification(next) });
          limits.show(next, unit);
          if (part === "class" && /^[WF] /.test(text) !== /^[WF] /.test(before.class)) {
            drawTolerance(false);
            document.getElementById(idOf(`${place}.tolerance.parameters.class`))?.focus();
          }
        };
        const now = classParameters(of(key).specification)[part];
        return labelled(
          { place: `${place}.tolerance.parameters.${part}`, label, name: labelIn(label), help },
          options === null ? numberInput(now, take) : choice(now, options, take),
          spots,
        );
      };
      const limits = createClassLimits();
      /** How the tolerance is known, and the fields of that. @param focus whether the choice had it */
      const drawTolerance = (focus: boolean): void => {
        for (const known of spots.keys()) if (known.startsWith(`${place}.tolerance.`)) spots.delete(known);
        const { specification } = of(key);
        const how = isClass(specification) ? "class" : Object.keys(specification).length > 0 ? "other" : "limits";
        const chooser =
          takesClass(unit) || how !== "limits"
            ? labelled(
                { place: `${place}.tolerance.specification`, label: words.how, name: labelIn(words.how) },
                choice(
                  how,
                  [
                    ["limits", words.limits],
                    ["class", words.byClass],
                    ...(how === "other" ? [["other", words.other] as const] : []),
                  ],
                  (chosen) => {
                    set(
                      key,
                      chosen === "class"
                        ? {
                            specification: classSpecification({ class: "", temperature: "", element: "", nominal: "" }),
                            lower: "",
                            upper: "",
                          }
                        : { specification: {} },
                    );
                    drawTolerance(true);
                  },
                ),
                spots,
              )
            : null;
        tolerance.replaceChildren();
        append(tolerance, [
          chooser,
          how === "limits"
            ? [
                field("lower", "tolerance.lower", pageWords.studyForm.tolerance.least),
                field("upper", "tolerance.upper", pageWords.studyForm.tolerance.greatest),
              ]
            : how === "class"
              ? [
                  parameter("class", words.class, "", [
                    ["", words.choose],
                    ...CLASSES.map((one) => [one, fillText(words.ofThermometer, { name: one })] as const),
                    ...OF_ELEMENTS.map(
                      (one) =>
                        [one, fillText(one.startsWith("W") ? words.ofWire : words.ofFilm, { name: one })] as const,
                    ),
                  ]),
                  parameter("temperature", words.temperature, words.temperatureHelp, null),
                  /^[WF] /.test(classParameters(specification).class)
                    ? null
                    : parameter("element", words.element, words.elementHelp, [
                        ["", words.anyElement],
                        ["wire", words.wire],
                        ["film", words.film],
                      ]),
                  /Ω/.test(unit) ? parameter("nominal", words.nominal, words.nominalHelp, null) : null,
                  limits.element,
                  html("p", { class: "field wide note" }, words.ranges),
                ]
              : null,
        ]);
        if (how === "class") limits.show(classParameters(specification), unit);
        if (focus) document.getElementById(idOf(`${place}.tolerance.specification`))?.focus();
      };
      drawTolerance(false);
      return html(
        "fieldset",
        { class: "input-row" },
        html("legend", {}, name),
        tolerance,
        html(
          "span",
          { class: "fields" },
          field(
            "basis",
            "tolerance.basis",
            pageWords.studyForm.tolerance.basis,
            pageWords.studyForm.tolerance.basisHelp,
          ),
          rule
            ? labelled(
                {
                  place: `${place}.guardBandMultiplier`,
                  label: pageWords.studyForm.tolerance.rule,
                  name: fillText(pageWords.studyForm.of, {
                    what: withinSentence(pageWords.studyForm.tolerance.rule),
                    whose: name,
                  }),
                  help: pageWords.studyForm.tolerance.ruleHelp,
                },
                choice(stated.guard as "" | "1" | "-1", RULES, (guard) => set(key, { guard })),
                spots,
              )
            : field(
                "guard",
                "guardBandMultiplier",
                pageWords.studyForm.tolerance.guard,
                pageWords.studyForm.tolerance.guardHelp,
              ),
          field(
            "priorMean",
            "prior.mean",
            pageWords.studyForm.tolerance.priorMean,
            pageWords.studyForm.tolerance.priorMeanHelp,
          ),
          field("priorDeviation", "prior.standardDeviation", pageWords.studyForm.tolerance.priorDeviation),
          field("priorSource", "prior.source", pageWords.studyForm.tolerance.priorSource),
        ),
      );
    }),
  );
}
