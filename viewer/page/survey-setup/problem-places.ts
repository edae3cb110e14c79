import type { Place } from "../evidence/complaints.ts";
import { fillText } from "../../present/fill.ts";
import { words } from "../later-words.ts";
import type { LoggedDraft, SetUp } from "./draft.ts";
import { subRangeNumbered } from "../../present/sub-ranges.ts";
import type { Thermometer } from "./thermometer-document.ts";

/** What the form calls a place of the description, and the control that has it; `null` if it has none. */
export function controlOf(place: string, draft: SetUp): { readonly id: string; readonly name: string } | null {
  const parts = place.replace(/^.*\.json, /, "").split(".");
  const [first, second, third, fourth] = parts;
  const simple = (id: string, name: string) => ({ id: `setup-${id}`, name });
  switch (first) {
    case "title":
      return simple("title", words.surveyPlaces.title);
    case "bath":
      return second === undefined
        ? simple("fluid", words.surveyPlaces.bath)
        : simple(second, BATH[second] ?? words.surveyPlaces.bath);
    case "zone":
      return second === "radius"
        ? simple("zoneRadius", words.surveyPlaces.zoneRadius)
        : simple(third === "1" ? "zoneTo" : "zoneFrom", words.surveyPlaces.zoneDepths);
    case "calibrationMinutes":
    case "settlingMinutes":
    case "maximumGapSeconds":
    case "arrangement":
      return simple(first, OTHERS[first]!);
    case "stability":
      return second === "cycleMinutes"
        ? simple("cycleMinutes", words.surveyPlaces.cycle)
        : simple("windowMinutes", words.surveyPlaces.window);
    case "reference":
      return draft.positions.length === 0
        ? simple("positions", words.surveyPlaces.positions)
        : simple("reference", words.surveyPlaces.reference);
    case "positions": {
      const k = draft.positions.findIndex(({ name }) => name === positionIn(parts));
      return k < 0
        ? simple("positions", words.surveyPlaces.positions)
        : simple(
            `position-${k}-${parts.at(-1)}`,
            fillText(words.surveyPlaces.position, {
              name: draft.positions[k]!.name,
              field: FIELDS[parts.at(-1)!] ?? "",
            }),
          );
    }
    case "thermometers":
      return thermometerPlace(place, draft);
    case "steps": {
      const k = Number(second);
      if (!Number.isInteger(k) || draft.steps[k] === undefined) return simple("steps", words.surveyPlaces.steps);
      if (third === "from" || third === "to")
        return simple(
          `step-${k}-${third}`,
          fillText(third === "from" ? words.surveyPlaces.stepBeginning : words.surveyPlaces.stepEnd, {
            n: String(k + 1),
          }),
        );
      const n = draft.thermometers.findIndex(({ name }) => name === parts.slice(3).join(".") || name === fourth);
      return simple(
        n < 0 ? `step-${k}-from` : `step-${k}-at-${n}`,
        fillText(words.surveyPlaces.step, { n: String(k + 1) }),
      );
    }
    case "log":
      return logField(second === "more" ? Number(third) + 1 : 0, second === "more" ? fourth : second);
    default: {
      // Thermometers are named as they stand: "HS-11.nominalResistance".
      const named = thermometerPlace(place, draft);
      if (named !== null) return named;
      return logPlace(place, draft);
    }
  }
}

/** The field of a thermometer, which may be named with a point: "thermometers.HS-11.its90.subRange", "HS-11.its90". */
export function thermometerPlace(place: string, { thermometers }: LoggedDraft): Place | null {
  const parts = place.split(".");
  const k = thermometers.findIndex(({ name }) => `.${place}.`.includes(`.${name}.`));
  const { name, unit, conversion } = thermometers[k] ?? {};
  if (name === undefined)
    return /^(thermometers|channels)/.test(place) ? { id: "setup-thermometers", name: words.thermometers.title } : null;
  const field = (id: string, label = ""): Place => ({
    id: `setup-thermometer-${k}-${id}`,
    name: `${name}${label === "" ? "" : `, ${label}`}`,
  });
  const last = parts.at(-1)!;
  if (last === "unit") return field("unit", words.thermometers.unit);
  if (unit !== "Ω") return field("name");
  if (last === "nominalResistance") return field("r0", "R₀");
  if (last === "triplePointResistance") return field("triplePoint", "R(273.16 K)");
  if (last === "subRange") return field("subRange", words.thermometers.subRange);
  if (conversion === "its90" && parts.at(-2) === "coefficients") return field(`deviation-${last}`, last);
  if (/^[ABC]$/.test(last)) return field(last.toLowerCase(), last);
  return field("conversion", words.thermometers.by);
}

const BATH: Readonly<Record<string, string>> = {
  fluid: words.surveyPlaces.fluid,
  setTemperature: words.surveyPlaces.setTemperature,
  flashPoint: words.surveyPlaces.flashPoint,
  overTemperatureCutOut: words.surveyPlaces.cutOut,
};
const OTHERS: Readonly<Record<string, string>> = {
  calibrationMinutes: words.surveyPlaces.calibration,
  settlingMinutes: words.surveyPlaces.settling,
  maximumGapSeconds: words.surveyPlaces.silence,
  arrangement: words.surveyPlaces.arrangement,
};
const FIELDS: Readonly<Record<string, string>> = {
  depth: words.surveyPlaces.depth,
  radius: words.surveyPlaces.radius,
  direction: words.surveyPlaces.direction,
};

const positionIn = (parts: readonly string[]): string => parts.slice(1, -1).join(".") || (parts[1] ?? "");

const logField = (i: number, name: string | undefined): { readonly id: string; readonly name: string } =>
  name === undefined || name === "file"
    ? { id: "setup-files", name: words.surveyPlaces.files }
    : { id: `setup-file-${i}-${name}`, name: words.surveyPlaces.log };

/** A row of the log that cannot be read is told at the files; `null` for what names no file. */
export const logPlace = (place: string, { logs }: Pick<LoggedDraft, "logs">): Place | null =>
  logs.some(({ file }) => place.startsWith(file)) ? { id: "setup-files", name: place } : null;

/** What a message of the server says, without the field's name in the file. */
export const inWords = (accepted: string): string =>
  accepted
    .replace(
      "day-first or month-first as log.dates of the description",
      "the order of day and month, stated above the preview",
    )
    .replace(
      /\(was the clock set back\? Then clock: before or after of the log states which times are right\)/,
      "(if the clock was set back, choose which times are right)",
    )
    .replace(", or sameTime: spread of the log", ", or spread those rows")
    .replace(/; or log\.time in the description/, "; or choose the column that is the time");

/** What is still to be stated of thermometers that are read as resistances. */
export const missingOf = (thermometers: readonly Thermometer[]): Place[] =>
  thermometers.flatMap((one, k) => {
    if (one.unit !== "Ω") return [];
    const id = `setup-thermometer-${k}`;
    const wanted: readonly (readonly [string, string, string])[] =
      one.conversion === "its90"
        ? [
            ["triplePoint", one.triplePoint, "R(273.16 K)"],
            ["subRange", one.subRange, words.thermometers.subRange],
            ...(subRangeNumbered(one.subRange)?.coefficients ?? []).map(
              (name) => [`deviation-${name}`, one.deviation[name] ?? "", name] as const,
            ),
          ]
        : [
            ["r0", one.r0, "R₀"],
            ...(one.conversion === "own"
              ? ([
                  ["a", one.a, "A"],
                  ["b", one.b, "B"],
                ] as const)
              : []),
          ];
    return wanted
      .filter(([, typed]) => typed.trim() === "")
      .map(([field, , label]) => ({
        id: `${id}-${field}`,
        name: fillText(words.evidence.ofOne, { what: label, name: one.name }),
      }));
  });

/** What is still to be stated, in the words of the form: each with the control that takes it. */
export function stillMissing(draft: SetUp): readonly { readonly id: string; readonly name: string }[] {
  const missing: { id: string; name: string }[] = [];
  const want = (present: boolean, id: string, name: string): void => {
    if (!present) missing.push({ id, name });
  };
  want(draft.title.trim() !== "", "setup-title", words.surveyPlaces.missing.title);
  want(draft.logs.length > 0, "setup-files", words.surveyPlaces.missing.log);
  if (draft.logs.length > 0)
    want(draft.thermometers.length > 0, "setup-file-0-column-1", words.surveyPlaces.missing.column);
  missing.push(...missingOf(draft.thermometers));
  want(draft.positions.length > 0, "setup-position-add", words.surveyPlaces.missing.positions);
  draft.positions.forEach((place, k) =>
    want(
      place.depth.trim() !== "",
      `setup-position-${k}-depth`,
      fillText(words.surveyPlaces.missing.depth, { name: place.name }),
    ),
  );
  want(draft.steps.length > 0, "setup-step-add", words.surveyPlaces.missing.steps);
  draft.steps.forEach((step, k) => {
    want(
      step.from.trim() !== "",
      `setup-step-${k}-from`,
      fillText(words.surveyPlaces.missing.beginning, { n: String(k + 1) }),
    );
    want(step.to.trim() !== "", `setup-step-${k}-to`, fillText(words.surveyPlaces.missing.end, { n: String(k + 1) }));
  });
  want(draft.calibrationMinutes.trim() !== "", "setup-calibrationMinutes", words.surveyPlaces.missing.calibration);
  return missing;
}
