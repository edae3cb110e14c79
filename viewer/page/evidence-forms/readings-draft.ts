import { bag, figure, list, text, whole, type Bag } from "../evidence/text.ts";
import { logsFrom, logToDocument, momentOf, typedInstant, type SetUp } from "../survey-setup/draft.ts";
import {
  newOne,
  thermometersFrom,
  thermometersToDocument,
  type Thermometer,
} from "../survey-setup/thermometer-document.ts";
import { words } from "../later-words.ts";
import { inKelvin, typedFrom, type SmallUnit } from "./units.ts";

/** Readings of a comparison as they are typed. */
export interface ReadingsDraft {
  title: string;
  notes: string;
  /** Whether the readings are typed here, or stand in a log. */
  source: "typed" | "log";
  logs: SetUp["logs"];
  /** Nobody moves about in a comparison; the parts that forms share ask for it. */
  steps: SetUp["steps"];
  thermometers: Thermometer[];
  /** Name of the thermometer that is the reference. */
  reference: string;
  /** Typed readings: `time`, and `at-0`, `at-1`, … for the thermometers in their order. */
  rows: Record<string, string>[];
  /** Earlier series: `probe`, `deviation`, `freedom`. */
  history: Record<string, string>[];
  unit: SmallUnit;
  others: Record<string, unknown>;
}

export const emptyReadings = (unit: SmallUnit): ReadingsDraft => ({
  title: "",
  notes: "",
  source: "typed",
  logs: [],
  steps: [],
  thermometers: [
    newOne(words.forms.readings.aReference, "", "", "°C"),
    newOne(words.forms.readings.aProbe, "", "", "°C"),
  ],
  reference: words.forms.readings.aReference,
  rows: [],
  history: [],
  unit,
  others: {},
});

/** The cell of a thermometer in a typed row. */
export const cellOf = (k: number): string => `at-${k}`;

/** Numbers of the rows that have something typed: places of the description count these alone. */
export const filledRows = (rows: readonly Readonly<Record<string, string>>[]): number[] =>
  rows.flatMap((row, i) => (Object.values(row).some((typed) => typed.trim() !== "") ? [i] : []));

/** The description that the form makes, finished or not. */
export function readingsDocument(draft: ReadingsDraft): Record<string, unknown> {
  const { thermometers, rows, history, unit } = draft;
  const typed = draft.source === "typed";
  const earlier = new Map<string, Bag[]>();
  for (const k of filledRows(history)) {
    const { probe = "", deviation = "", freedom = "" } = history[k]!;
    const series = whole({ standardDeviation: inKelvin(deviation, unit), degreesOfFreedom: figure(freedom) }) ?? {};
    earlier.set(probe.trim(), [...(earlier.get(probe.trim()) ?? []), series]);
  }
  return {
    ...draft.others,
    title: draft.title.trim(),
    ...whole({
      notes: draft.notes.trim(),
      log: typed ? undefined : logToDocument(draft.logs),
      rows: typed
        ? filledRows(rows).map((i) => ({
            ...whole({ time: momentOf(rows[i]!["time"] ?? "") }),
            readings: Object.fromEntries(
              thermometers.flatMap(({ name }, k) => {
                const value = figure(rows[i]![cellOf(k)] ?? "");
                return value === undefined ? [] : [[name, value]];
              }),
            ),
          }))
        : undefined,
    }),
    reference: draft.reference,
    channels: thermometersToDocument(thermometers, typed ? undefined : draft.logs[0]?.file),
    ...whole({ history: earlier.size === 0 ? undefined : Object.fromEntries(earlier) }),
  };
}

const KNOWN: ReadonlySet<string> = new Set(["title", "notes", "log", "rows", "reference", "channels", "history"]);

/** The form that makes a description: what it has no field for stays. */
export function readingsFrom(document: Bag, unit: SmallUnit): ReadingsDraft {
  const logs = logsFrom(document["log"]);
  const thermometers = thermometersFrom(document["channels"], logs[0]?.file ?? "");
  return {
    ...emptyReadings(unit),
    title: text(document["title"]),
    notes: text(document["notes"]),
    source: logs.length > 0 ? "log" : "typed",
    logs,
    thermometers,
    reference: text(document["reference"]),
    rows: list(document["rows"]).map((row) => {
      const { time, readings } = bag(row);
      return {
        ...(time === undefined ? {} : { time: typedInstant(time) }),
        ...Object.fromEntries(
          thermometers.flatMap(({ name }, k) => {
            const value = bag(readings)[name];
            return value === undefined ? [] : [[cellOf(k), text(value)]];
          }),
        ),
      };
    }),
    history: Object.entries(bag(document["history"])).flatMap(([probe, series]) =>
      list(series).map((one) => ({
        probe,
        deviation: typedFrom(bag(one)["standardDeviation"], unit),
        freedom: text(bag(one)["degreesOfFreedom"]),
      })),
    ),
    others: Object.fromEntries(Object.entries(document).filter(([name]) => !KNOWN.has(name))),
  };
}
