import { bag, figure, list, text, whole, type Bag } from "../evidence/text.ts";
import { thermometersFrom, thermometersToDocument, type Thermometer } from "./thermometer-document.ts";

/** A place in the bath as it is typed. Lengths in mm. */
export interface Place {
  name: string;
  depth: string;
  radius: string;
  direction: string;
}

/** A step of the survey as it is typed: moments as the log's clock shows them, and who stood where. */
export interface Step {
  from: string;
  to: string;
  /** Name of a position, by thermometer; "" for out of the bath. */
  at: Record<string, string>;
}

/** What a file of the log does not show itself. */
export type LogFields = Record<string, string>;

/** A survey as it is being set up: text as it was typed, so that nothing half-written is lost. */
export interface SetUp {
  title: string;
  notes: string;
  fluid: string;
  setTemperature: string;
  flashPoint: string;
  overTemperatureCutOut: string;
  logs: { file: string; fields: LogFields }[];
  thermometers: Thermometer[];
  positions: Place[];
  reference: string;
  steps: Step[];
  settlingMinutes: string;
  calibrationMinutes: string;
  windowMinutes: string;
  cycleMinutes: string;
  zoneFrom: string;
  zoneTo: string;
  zoneRadius: string;
  arrangement: string;
  maximumGapSeconds: string;
  /** What the form has no field for is kept as it was. */
  others: Record<string, unknown>;
}

/** What a draft has of its log: files, thermometers, and who stood where. */
export type LoggedDraft = Pick<SetUp, "logs" | "thermometers" | "steps">;

export const emptySetUp = (): SetUp => ({
  title: "",
  notes: "",
  fluid: "",
  setTemperature: "",
  flashPoint: "",
  overTemperatureCutOut: "",
  logs: [],
  thermometers: [],
  positions: [],
  reference: "",
  steps: [],
  settlingMinutes: "5",
  calibrationMinutes: "",
  windowMinutes: "",
  cycleMinutes: "",
  zoneFrom: "",
  zoneTo: "",
  zoneRadius: "",
  arrangement: "reference-fixed",
  maximumGapSeconds: "",
  others: {},
});

/** A moment: elapsed seconds as a number, a date and time as text. */
export const momentOf = (typed: string): number | string | undefined => figure(typed.trim().replace(" ", "T"));

/** A moment of a description as it is typed. */
export const typedInstant = (value: unknown): string => text(value).replace("T", " ");

const LOG_NUMBERS = new Set(["headingRow"]);

/** The log of a description, finished or not; `undefined` without a file. */
export function logToDocument(logs: SetUp["logs"]): Record<string, unknown> | undefined {
  const [first, ...more] = logs.map(({ file, fields }) => ({
    file,
    ...Object.fromEntries(
      Object.entries(fields)
        .filter(([, value]) => value !== "")
        .map(([name, value]) => [
          name,
          name === "noReading"
            ? value
                .split(/[,;]/)
                .map((word) => word.trim())
                .filter((word) => word !== "")
            : LOG_NUMBERS.has(name)
              ? figure(value)
              : value,
        ]),
    ),
  }));
  return first === undefined ? undefined : { ...first, ...(more.length === 0 ? {} : { more }) };
}

/** The files of a log as they stand in a description. */
export function logsFrom(stated: unknown): SetUp["logs"] {
  const { more, ...first } = bag(stated);
  return [first, ...list(more).map(bag)]
    .filter(({ file }) => typeof file === "string")
    .map(({ file, ...fields }) => ({
      file: text(file),
      fields: Object.fromEntries(
        Object.entries(fields).map(([name, value]) => [name, Array.isArray(value) ? value.join(", ") : text(value)]),
      ),
    }));
}

/** The description that the set-up makes, finished or not. */
export function documentOf(draft: SetUp): Record<string, unknown> {
  const { bath: _bath, stability: _stability, ...others } = draft.others;
  return {
    ...others,
    title: draft.title.trim(),
    ...whole({
      notes: draft.notes.trim(),
      bath: whole({
        ...bag(draft.others["bath"]),
        fluid: draft.fluid,
        setTemperature: figure(draft.setTemperature),
        flashPoint: figure(draft.flashPoint),
        overTemperatureCutOut: figure(draft.overTemperatureCutOut),
      }),
      log: logToDocument(draft.logs),
    }),
    thermometers: thermometersToDocument(draft.thermometers, draft.logs[0]?.file),
    positions: Object.fromEntries(
      draft.positions.map(({ name, depth, radius, direction }) => [
        name,
        whole({ depth: figure(depth), radius: figure(radius), direction: direction.trim() }) ?? {},
      ]),
    ),
    reference: draft.reference,
    steps: draft.steps.map(({ from, to, at }) => ({
      ...whole({ from: momentOf(from), to: momentOf(to) }),
      at: Object.fromEntries(Object.entries(at).filter(([, position]) => position !== "")),
    })),
    ...whole({
      settlingMinutes: figure(draft.settlingMinutes),
      calibrationMinutes: figure(draft.calibrationMinutes),
      stability: whole({
        ...bag(draft.others["stability"]),
        windowMinutes: figure(draft.windowMinutes),
        cycleMinutes: figure(draft.cycleMinutes),
      }),
      zone: whole({
        depth:
          draft.zoneFrom.trim() === "" && draft.zoneTo.trim() === ""
            ? undefined
            : [figure(draft.zoneFrom) ?? "", figure(draft.zoneTo) ?? ""],
        radius: figure(draft.zoneRadius),
      }),
      arrangement: draft.arrangement,
      maximumGapSeconds: figure(draft.maximumGapSeconds),
    }),
  };
}

const KNOWN: ReadonlySet<string> = new Set([
  "title",
  "notes",
  "log",
  "thermometers",
  "positions",
  "reference",
  "steps",
  "settlingMinutes",
  "calibrationMinutes",
  "zone",
  "arrangement",
  "maximumGapSeconds",
]);

/** The set-up that makes a description: what it has no field for stays. */
export function setUpOf(document: Bag): SetUp {
  const logs = logsFrom(document["log"]);
  const names = logs.map(({ file }) => file);
  const bath = bag(document["bath"]);
  const stability = bag(document["stability"]);
  const zone = bag(document["zone"]);
  const depth = list(zone["depth"]);
  const others = Object.fromEntries(Object.entries(document).filter(([name]) => !KNOWN.has(name)));
  return {
    ...emptySetUp(),
    title: text(document["title"]),
    notes: text(document["notes"]),
    fluid: text(bath["fluid"]),
    setTemperature: text(bath["setTemperature"]),
    flashPoint: text(bath["flashPoint"]),
    overTemperatureCutOut: text(bath["overTemperatureCutOut"]),
    logs,
    thermometers: thermometersFrom(document["thermometers"], names[0] ?? ""),
    positions: Object.entries(bag(document["positions"])).map(([name, stated]) => {
      const place = bag(stated);
      return { name, depth: text(place["depth"]), radius: text(place["radius"]), direction: text(place["direction"]) };
    }),
    reference: text(document["reference"]),
    steps: list(document["steps"]).map((stated) => {
      const { from, to, at } = bag(stated);
      return {
        from: typedInstant(from),
        to: typedInstant(to),
        at: Object.fromEntries(Object.entries(bag(at)).map(([name, position]) => [name, text(position)])),
      };
    }),
    ...(document["settlingMinutes"] === undefined ? {} : { settlingMinutes: text(document["settlingMinutes"]) }),
    calibrationMinutes: text(document["calibrationMinutes"]),
    windowMinutes: text(stability["windowMinutes"]),
    cycleMinutes: text(stability["cycleMinutes"]),
    zoneFrom: text(depth[0]),
    zoneTo: text(depth[1]),
    zoneRadius: text(zone["radius"]),
    arrangement: text(document["arrangement"]) || "reference-fixed",
    maximumGapSeconds: text(document["maximumGapSeconds"]),
    others,
  };
}

/** Seconds of a typed moment, or `null`: what the picture of the log draws. */
export function secondsOf(typed: string): number | null {
  const value = momentOf(typed);
  if (typeof value === "number") return value;
  if (value === undefined || !/^\d{4}-\d{2}-\d{2}T\d{1,2}:\d{2}(:\d{2}(\.\d+)?)?$/.test(value)) return null;
  const time = Date.parse(`${value.length < 17 ? `${value}:00` : value}Z`);
  return Number.isNaN(time) ? null : time / 1000;
}

/** From this many seconds on a log counts dates. */
const DATES = 86_400 * 365;

/** A moment as it is typed. */
export const typedMoment = (seconds: number): string =>
  seconds < DATES
    ? String(Number(seconds.toFixed(3)))
    : new Date(1000 * Math.round(seconds)).toISOString().slice(0, 19).replace("T", " ");
