import { html } from "../draw/node.ts";
import { choice, labelled, numberInput, textInput, type Spots } from "./controls.ts";
import type { ConformityDraft, Draft } from "./draft.ts";

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
  ["", "simple acceptance: r = 0"],
  ["1", "guarded acceptance: r = 1, by U"],
  ["-1", "guarded rejection: r = −1, by U"],
] as const;

/** What conformity fields state, in a few words. */
export const conformityWords = ({ conformity }: Draft): string => {
  const stated = conformity.filter(
    ({ lower, upper, specification }) => lower !== "" || upper !== "" || Object.keys(specification).length > 0,
  );
  return stated.length === 0 ? "not asked for" : "asked for";
};

/**
 * Tolerance and decision rule of each result (JCGM 106).
 *
 * @param measurands by key, with what the reader knows each by
 * @param change takes the statements of all, and the field that was typed into
 */
export function conformityFields(
  draft: Draft,
  measurands: readonly (readonly [key: string, name: string])[],
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
    html(
      "p",
      { class: "note" },
      "Does the result lie within a tolerance? Type one limit or both, in the unit of the result; the report then has the probability of conformity and the risks.",
    ),
    measurands.map(([key, name]) => {
      const stated = of(key);
      const place = `conformity.${key === "" ? "result" : key}`;
      const field = (
        part: keyof Omit<ConformityDraft, "specification">,
        at: string,
        label: string,
        help = "",
        wide = false,
      ): HTMLElement =>
        labelled(
          { place: `${place}.${at}`, label, name: `${label.toLowerCase()} of ${name}`, help, wide },
          (part === "basis" || part === "priorSource" ? textInput : numberInput)(stated[part], (text) =>
            set(key, { [part]: text }),
          ),
          spots,
        );
      const { specification } = stated;
      const rule = RULES.some(([r]) => r === stated.guard);
      return html(
        "fieldset",
        { class: "input-row" },
        html("legend", {}, name),
        typeof specification["specification"] === "string"
          ? html(
              "p",
              { class: "note" },
              `The limits come from the class of ${specification["specification"] === "iec60751" ? "IEC 60751" : specification["specification"]}: ${specificationWords(specification)}. `,
              html(
                "button",
                {
                  type: "button",
                  class: "quiet small",
                  onclick: ({ target }: { target: HTMLElement }) => {
                    set(key, { specification: {} });
                    target.closest("p")?.remove();
                  },
                },
                "Type limits instead",
              ),
            )
          : null,
        html(
          "span",
          { class: "fields" },
          field("lower", "tolerance.lower", "Least permissible value"),
          field("upper", "tolerance.upper", "Greatest permissible value"),
          field("basis", "tolerance.basis", "What sets the limits", "A class of a standard, a customer’s order"),
          rule
            ? labelled(
                {
                  place: `${place}.guardBandMultiplier`,
                  label: "Decision rule",
                  name: `decision rule of ${name}`,
                  help: "The guard band is r·U",
                },
                choice(stated.guard as "" | "1" | "-1", RULES, (guard) => set(key, { guard })),
                spots,
              )
            : field(
                "guard",
                "guardBandMultiplier",
                "Guard band over U, r",
                "0 simple acceptance, above 0 guarded acceptance, below 0 guarded rejection",
              ),
          field(
            "priorMean",
            "prior.mean",
            "Mean of the items measured",
            "With their standard deviation, for the global risks; else empty",
          ),
          field("priorDeviation", "prior.standardDeviation", "Standard deviation of the items"),
          field("priorSource", "prior.source", "Source of both"),
        ),
      );
    }),
  );
}

const specificationWords = ({ parameters }: Readonly<Record<string, unknown>>): string =>
  Object.entries((parameters ?? {}) as Readonly<Record<string, unknown>>)
    .map(([name, value]) => `${name} ${String(value)}`)
    .join(", ");
